import fc from 'fast-check';
import { expect, test } from 'vitest';
import { isTooDeep } from '../../../server/wire/problem/jsonDepth.ts';

const bytes = (text: string): Uint8Array => Buffer.from(text);
const depthOf = (value: unknown): number =>
  value !== null && typeof value === 'object' ? 1 + Math.max(0, ...Object.values(value).map(depthOf)) : 0;

test('agrees with the depth of any JSON, whatever stands in its strings', () => {
  const brackets = fc.string({ unit: fc.constantFrom('[', ']', '{', '}', '"', '\\', 'a', 'é') });
  const value = fc.letrec((tie) => ({
    any: fc.oneof({ maxDepth: 6 }, brackets, fc.integer(), fc.array(tie('any')), fc.dictionary(brackets, tie('any'))),
  })).any;
  fc.assert(
    fc.property(value, fc.integer({ min: 0, max: 8 }), (found, limit) => {
      expect(isTooDeep(bytes(JSON.stringify(found)), limit)).toBe(depthOf(found) > limit);
    }),
  );
});

test('outlives what is no JSON', () => {
  for (const text of ['', '"', '"\\', ']]]]', '[[[', '"\\"[[[']) expect(isTooDeep(bytes(text), 5)).toBe(false);
  expect(isTooDeep(bytes('['.repeat(1e6)))).toBe(true);
});
