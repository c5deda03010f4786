/** RFC 7396, JSON Merge Patch, appendix A: all test cases, from memory. */
import { expect, test } from 'vitest';
import { mergePatch } from '../../server/wire/job/mergePatch.ts';

test.each([
  [{ a: 'b' }, { a: 'c' }, { a: 'c' }],
  [{ a: 'b' }, { b: 'c' }, { a: 'b', b: 'c' }],
  [{ a: 'b' }, { a: null }, {}],
  [{ a: 'b', b: 'c' }, { a: null }, { b: 'c' }],
  [{ a: ['b'] }, { a: 'c' }, { a: 'c' }],
  [{ a: 'c' }, { a: ['b'] }, { a: ['b'] }],
  [{ a: { b: 'c' } }, { a: { b: 'd', c: null } }, { a: { b: 'd' } }],
  [{ a: [{ b: 'c' }] }, { a: [1] }, { a: [1] }],
  [
    ['a', 'b'],
    ['c', 'd'],
    ['c', 'd'],
  ],
  [{ a: 'b' }, ['c'], ['c']],
  [{ a: 'foo' }, null, null],
  [{ a: 'foo' }, 'bar', 'bar'],
  [{ e: null }, { a: 1 }, { e: null, a: 1 }],
  [[1, 2], { a: 'b', c: null }, { a: 'b' }],
  [{}, { a: { bb: { ccc: null } } }, { a: { bb: {} } }],
] as const)('%j with %j', (target, patch, result) => expect(mergePatch(target, patch)).toEqual(result));

test('a field of any name is a field', () => {
  const merged = mergePatch({}, JSON.parse('{ "__proto__": { "a": 1 } }'));
  expect(Object.getPrototypeOf(merged)).toBe(Object.prototype);
  expect(JSON.stringify(merged)).toBe('{"__proto__":{"a":1}}');
});
