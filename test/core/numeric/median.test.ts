import fc from 'fast-check';
import { expect, it } from 'vitest';
import { median, sdByMedian } from '../../../server/core/numeric/median.ts';
import { mulberry32 } from '../../../server/core/numeric/mulberry32.ts';
import { expectClose } from '../../kit/close.ts';

it('the median has as many values below it as above, in whatever order they come', () => {
  expect(median([3, 1, 2])).toBe(2);
  expect(median([4, 1, 3, 2])).toBe(2.5);
  expect(median([])).toBeNaN();
  fc.assert(
    fc.property(fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 1, maxLength: 40 }), (values) => {
      const middle = median(values);
      const half = values.length / 2;
      expect(values.filter((value) => value < middle).length).toBeLessThanOrEqual(half);
      expect(values.filter((value) => value > middle).length).toBeLessThanOrEqual(half);
      expect(median(values.toReversed())).toBe(middle);
    }),
  );
});

/** Normal errors made by Box and Muller's method (Ann. Math. Stat. 29 (1958), 610-611; from memory). */
it('the median of the sizes tells the spread of normal errors, also with a tenth of them gone wild', () => {
  const errors = Array.from({ length: 20_000 }, (_, i) => {
    const [u, v] = [1 - mulberry32(5, 2 * i), mulberry32(5, 2 * i + 1)];
    return 2 * Math.sqrt(-2 * Math.log(u)) * Math.cos(2 * Math.PI * v);
  });
  expectClose(sdByMedian(errors.map(Math.abs)), 2, 0.04, 'spread');
  const wild = errors.map((error, i) => (i % 10 === 0 ? 1000 : Math.abs(error)));
  // A median of nine parts in ten is their 5/9: the quantile 0.7647 of sizes in place of 0.6745.
  expectClose(sdByMedian(wild), 2 * (0.7647 / 0.6745), 0.05, 'spread of the rest');
});
