import fc from 'fast-check';
import { test } from 'vitest';
import { cubicSpline } from '../../../../server/core/numeric/spline/cubicSpline.ts';
import { unitSpline } from '../../../../server/core/numeric/spline/unitSpline.ts';
import { expectClose } from '../../../kit/close.ts';
import { holds } from '../../../kit/holds.ts';

test('is the spline through the same points, with its slopes and bends, and beyond its ends', () => {
  const values = fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 2, maxLength: 40 });
  const places = fc.array(fc.double({ min: -2, max: 42, noNaN: true }), { minLength: 1, maxLength: 20 });
  holds(
    fc.property(values, places, (drawn, at) => {
      const fast = unitSpline(Float64Array.from(drawn));
      const plain = cubicSpline(
        drawn.map((_, k) => k),
        drawn,
      );
      for (const place of [...at, ...drawn.map((_, k) => k)]) {
        expectClose(fast.valueAt(place), plain.valueAt(place), 1e-6, `value at ${place}`);
        expectClose(fast.slopeAt(place), plain.slopeAt(place), 1e-7, `slope at ${place}`);
        expectClose(fast.secondAt(place), plain.secondAt(place), 1e-7, `second at ${place}`);
      }
    }),
    { numRuns: 500 },
  );
});
