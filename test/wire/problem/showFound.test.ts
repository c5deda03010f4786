import { expect, test } from 'vitest';
import { quote, showFound, showName } from '../../../server/wire/problem/showFound.ts';

test.each([
  [undefined, 'nothing'],
  [null, 'null'],
  ['12', '"12"'],
  [12.5, '12.5'],
  [false, 'false'],
  [3n, '3'],
  [[], 'an empty list'],
  [[1, 2], 'a list of 2'],
  [{}, 'an empty object'],
  [{ a: 1 }, 'an object with "a"'],
  [{ a: 1, b: 2, c: 3 }, 'an object with "a", "b", "c"'],
  [{ a: 1, b: 2, c: 3, d: 4, e: 5 }, 'an object with "a", "b", "c" and 2 more'],
  [() => 1, 'a function'],
])('%o is shown as %s', (value, shown) => {
  expect(showFound(value)).toBe(shown);
});

test('long text is cut, with its length; what is just as long as may be is whole', () => {
  expect(quote('x'.repeat(60))).toBe(`"${'x'.repeat(60)}"`);
  expect(quote('x'.repeat(61))).toBe(`"${'x'.repeat(60)}..." (61 characters)`);
  expect(showFound({ ['k'.repeat(25)]: 1 })).toBe(`an object with "${'k'.repeat(20)}..." (25 characters)`);
});

test('a name is plain where it is plain, quoted where it is long or strange', () => {
  expect(showName('saw.readoutTable[2][0]')).toBe('saw.readoutTable[2][0]');
  expect(showName('offsets (old).csv')).toBe('offsets (old).csv');
  expect(showName(' a')).toBe('" a"');
  expect(showName('a\nb')).toBe('"a\\nb"');
  expect(showName('n'.repeat(100))).toBe('n'.repeat(100));
  expect(showName('n'.repeat(101))).toBe(`"${'n'.repeat(40)}..." (101 characters)`);
});
