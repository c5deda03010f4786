/** The spline's weights against the spline itself, asked for one value at a time. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cubicSpline } from '../../../../server/core/numeric/spline/cubicSpline.ts';
import { SplineWeights } from '../../../../server/core/numeric/spline/splineWeights.ts';
import { chance } from '../../frame/fairFrames.ts';

/** Knots with spans of one size and up to three times it. */
function knots(count: number, draw: () => number): Float64Array {
  let at = 0;
  return Float64Array.from({ length: count }, () => {
    at += 1 + 2 * draw();
    return at;
  });
}

describe('weights of a cubic spline', () => {
  test('give its value and its slope at any place, over few knots and many', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 90 }),
        fc.integer(),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (count, from, share) => {
          const draw = chance(from);
          const x = knots(count, draw);
          const y = x.map(() => 2 * draw() - 1);
          const spline = cubicSpline(x, y);
          const place = spline.from + share * (spline.to - spline.from);
          const { from: first, ofValue, ofSlope } = new SplineWeights(x).at(place);
          const sum = (weights: Float64Array): number =>
            weights.reduce((total, weight, i) => total + weight * (y[first + i] ?? 0), 0);
          expect(sum(ofValue)).toBeCloseTo(spline.valueAt(place), 5);
          expect(sum(ofSlope)).toBeCloseTo(spline.slopeAt(place), 5);
        },
      ),
    );
  });

  test('of many knots only those around a place are asked', () => {
    const { from, ofValue } = new SplineWeights(knots(5000, chance(1))).at(6000);
    expect(ofValue.length).toBeLessThan(40);
    expect(from).toBeGreaterThan(0);
  });
});
