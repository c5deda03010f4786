import fc from 'fast-check';
import { expect, it } from 'vitest';
import { firstBeyond } from '../../../server/core/numeric/interpolate.ts';

it('finds what a search from the start finds', () => {
  const xs = fc.array(fc.integer({ min: -20, max: 20 }), { maxLength: 30 }).map((list) => list.sort((a, b) => a - b));
  fc.assert(
    fc.property(xs, fc.integer({ min: -22, max: 22 }), (list, x) => {
      const found = list.findIndex((each) => each > x);
      expect(firstBeyond(list, x)).toBe(found < 0 ? list.length : found);
    }),
  );
});
