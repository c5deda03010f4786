import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { crossValidated, MOST_TRACE, smoothingRange } from '../../../../server/core/numeric/spline/crossValidated.ts';
import {
  type SmoothingFit,
  smoothingSpline,
  type WeightedRows,
} from '../../../../server/core/numeric/spline/smoothingSpline.ts';
import { expectClose } from '../../../kit/close.ts';
import { someRows } from '../someRows.ts';

const fairest = (rows: WeightedRows): SmoothingFit =>
  crossValidated(smoothingSpline(rows), rows.x.length, smoothingRange(rows.x, rows.weight));

describe('smoothing by cross-validation', () => {
  test('does not change when girth is shifted or measured in other units, nor when all weights are multiplied', () => {
    fc.assert(
      fc.property(
        someRows(8, 16),
        fc.integer({ min: -4, max: 4 }),
        fc.integer({ min: -4, max: 4 }),
        fc.integer({ min: -1000, max: 1000 }),
        ({ x, y, weight }, unit, heavier, shift) => {
          const girth = x.map(Math.round);
          const plain = fairest({ x: girth, y, weight });
          const other = fairest({
            x: girth.map((at) => (at + shift) * 2 ** unit),
            y,
            weight: weight.map((w) => w * 2 ** heavier),
          });
          y.forEach((_, i) => {
            expectClose(other.fitted[i] ?? Number.NaN, plain.fitted[i] ?? Number.NaN, 1e-6, `row ${i}`);
          });
        },
      ),
    );
  });

  test('never follows the rows more closely than its cap', () => {
    fc.assert(
      fc.property(someRows(4, 25), (rows) => {
        expect(fairest(rows).trace).toBeLessThanOrEqual(Math.max(MOST_TRACE * rows.x.length, 2.02));
      }),
    );
  });

  test('scores as well as the best smoothing of a fine grid, but for a hair', () => {
    fc.assert(
      fc.property(someRows(8, 14), (rows) => {
        const n = rows.x.length;
        const fitAt = smoothingSpline(rows);
        const range = smoothingRange(rows.x, rows.weight);
        const score = (fit: SmoothingFit) =>
          fit.trace > MOST_TRACE * n ? Number.POSITIVE_INFINITY : fit.residualSquares / (n - 1.05 * fit.trace) ** 2;
        const best = score(crossValidated(fitAt, n, range));
        const decades = Math.log10(range.straightest / range.closest);
        const grid = Array.from({ length: 301 }, (_, k) => score(fitAt(range.closest * 10 ** ((decades * k) / 300))));
        expect(best).toBeLessThanOrEqual(Math.min(...grid) * 1.02 + 1e-12);
      }),
      { numRuns: 300 },
    );
  });
});
