import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type PlanePoint, planeSpline } from '../../../../server/core/numeric/spline/planeSpline.ts';
import { expectClose } from '../../../kit/close.ts';

/** Points as along a frame: each some way on from the last, turning by at most 40 degrees. */
const somePoints: fc.Arbitrary<readonly PlanePoint[]> = fc
  .array(fc.tuple(fc.double({ min: 50, max: 200, noNaN: true }), fc.double({ min: -0.7, max: 0.7, noNaN: true })), {
    minLength: 1,
    maxLength: 14,
  })
  .map((steps) => {
    const points: PlanePoint[] = [[0, 0]];
    let heading = 0;
    for (const [step, turn] of steps) {
      const [u, v] = points.at(-1) ?? [0, 0];
      heading += turn;
      points.push([u + step * Math.cos(heading), v + step * Math.sin(heading)]);
    }
    return points;
  });

describe('a curve through points in a plane', () => {
  test('is asked by distance along it: equal steps along are equal steps in space, and it starts and ends at its points', () => {
    fc.assert(
      fc.property(somePoints, (points) => {
        const curve = planeSpline(points);
        const steps = 400;
        let walked = 0;
        for (let k = 0; k < steps; k++) {
          const a = curve.at((curve.length * k) / steps);
          const b = curve.at((curve.length * (k + 1)) / steps);
          const step = Math.hypot(b.u - a.u, b.v - a.v);
          expect(step).toBeLessThanOrEqual((curve.length / steps) * (1 + 1e-6));
          walked += step;
        }
        expectClose(walked / curve.length, 1, 1e-3, 'chords walked over length');
        const [end, wanted] = [curve.at(curve.length), points.at(-1) ?? [0, 0]];
        expectClose(Math.hypot(end.u - wanted[0], end.v - wanted[1]), 0, 1e-9, 'end');
      }),
      { numRuns: 40 },
    );
  });

  test('runs on straight beyond its ends', () => {
    const curve = planeSpline([
      [0, 0],
      [100, 0],
      [190, 40],
      [260, 110],
    ]);
    const [end, beyond] = [curve.at(curve.length), curve.at(curve.length + 50)];
    expectClose(Math.hypot(beyond.u - end.u, beyond.v - end.v), 50, 1e-9, 'distance beyond');
    expect(beyond.curvature).toBe(0);
    expect(curve.at(-10).curvature).toBe(0);
    expect(end.curvature).not.toBe(0);
  });

  test('refuses a single point', () => {
    expect(() => planeSpline([[1, 2]])).toThrow('got 1');
  });
});
