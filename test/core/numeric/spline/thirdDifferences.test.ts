import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { thirdDifferenceSmoother } from '../../../../server/core/numeric/spline/thirdDifferences.ts';
import { expectClose } from '../../../kit/close.ts';
import { holds } from '../../../kit/holds.ts';

const places = fc
  .array(fc.integer({ min: 5, max: 300 }), { minLength: 6, maxLength: 20 })
  .map((steps) => steps.map((_, i) => steps.slice(0, i + 1).reduce((a, b) => a + b)));
const smoothing = fc.double({ min: -4, max: 3, noNaN: true }).map((exponent) => 10 ** exponent);

function smoothed(x: readonly number[], amount: number, y: readonly number[]): number[] {
  const smoother = thirdDifferenceSmoother(x, amount);
  return x.map((_, i) => y.reduce((sum, value, j) => sum + (smoother[i * x.length + j] ?? 0) * value, 0));
}

/** No sum can be had more exactly than its system allows, whose greatest figure is the square of this times the smoothing. */
function largestWeight(x: readonly number[]): number {
  const step = ((x.at(-1) ?? 0) - (x[0] ?? 0)) / (x.length - 1);
  const gaps = (at: number, from: number): number[] =>
    [0, 1, 2, 3].filter((j) => from + j !== at).map((j) => Math.abs((x[at] ?? 0) - (x[from + j] ?? 0)) / step);
  return Math.max(
    ...x.slice(3).flatMap((_, from) => [0, 1, 2, 3].map((j) => 6 / gaps(from + j, from).reduce((a, b) => a * b))),
  );
}

describe('smoothing by third differences', () => {
  test('leaves every parabola as it is', () => {
    holds(
      fc.property(places, smoothing, (x, amount) => {
        const y = x.map((at) => 3 - at / 50 + (at / 200) ** 2);
        const within = (1e-9 + 8 * Number.EPSILON * amount * largestWeight(x) ** 2) * Math.max(1, ...y.map(Math.abs));
        smoothed(x, amount, y).forEach((value, i) => {
          expectClose(value, y[i] ?? 0, within, `place ${i}`);
        });
      }),
    );
  });

  /** min |z - y|^2 + smoothing |D z|^2: no other values cost less. */
  test('costs less than anything near it', () => {
    holds(
      fc.property(
        places,
        smoothing,
        fc.infiniteStream(fc.double({ min: -10, max: 10, noNaN: true })),
        (x, amount, stream) => {
          const y = x.map(() => stream.next().value ?? 0);
          const step = ((x.at(-1) ?? 0) - (x[0] ?? 0)) / (x.length - 1);
          const cost = (z: readonly number[]): number => {
            let sum = z.reduce((total, value, i) => total + (value - (y[i] ?? 0)) ** 2, 0);
            for (let row = 0; row + 3 < x.length; row++) {
              const difference = [0, 1, 2, 3].reduce((total, j) => {
                const product = [0, 1, 2, 3].reduce(
                  (p, m) => (m === j ? p : p * (((x[row + j] ?? 0) - (x[row + m] ?? 0)) / step)),
                  1,
                );
                return total + (6 * (z[row + j] ?? 0)) / product;
              }, 0);
              sum += amount * difference ** 2;
            }
            return sum;
          };
          const best = smoothed(x, amount, y);
          for (let i = 0; i < x.length; i++)
            for (const by of [-0.01, 0.01])
              expect(cost(best.map((value, j) => (j === i ? value + by : value)))).toBeGreaterThanOrEqual(
                cost(best) * (1 - 1e-9),
              );
        },
      ),
      { numRuns: 60 },
    );
  });
});
