import { expect, test } from 'vitest';
import { faultsIn } from './faultsIn.ts';

const become = (text: string): string[] =>
  faultsIn('a.ts', text).map(({ from, to, becomes }) => text.slice(0, from) + becomes + text.slice(to));

test('operators, figures, truths, branches and turned-round names become others, one at a time', () => {
  expect(become('a < b;')).toEqual(['a <= b;', 'a > b;']);
  expect(become('a && b;')).toEqual(['a || b;']);
  expect(become('f(2);')).toEqual(['f((2 + 1));', 'f((2 * 1.5));']);
  expect(become('const is = true;')).toEqual(['const is = false;']);
  expect(become('a ? b : c;')).toEqual(['a ? c : b;']);
  expect(become('Math.max(a, b);')).toEqual(['Math.min(a, b);']);
  expect(become('if (!a) b();')).toEqual(['if ( a) b();']);
});

test('types, imports and texts are left alone', () => {
  expect(become(`import { a } from './b.ts';`)).toEqual([]);
  expect(become('type A = 1 | 2;')).toEqual([]);
  expect(become('interface A { readonly b: true }')).toEqual([]);
  expect(become(`'a' + b;`)).toEqual([]);
});
