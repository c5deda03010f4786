import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Job } from '../../../server/core/job.ts';
import { EVEN_FLATS, flatCurvature } from '../../../server/core/stack/flats.ts';
import { aJob, picked } from '../../kit/aJob.ts';
import { holds } from '../../kit/holds.ts';
import { planned } from '../../kit/planned.ts';

const SIDING_MM = 60;
const LENGTH_MM = 1200;
const rad = (deg: number): number => (deg * Math.PI) / 180;

interface Waves {
  readonly radiusMm: number;
  readonly meanDeg: number;
  readonly swingDeg: number;
  readonly phase: number;
}
/** A frame that is one circle, its bevel a wave along it. */
const bevelOf =
  ({ meanDeg, swingDeg, phase }: Waves) =>
  (girthMm: number): number =>
    meanDeg + swingDeg * Math.cos((2 * Math.PI * girthMm) / LENGTH_MM + phase);

function circleJob(waves: Waves, mouldedFace: 'forward' | 'aft'): Job {
  const { radiusMm } = waves;
  const points = Array.from({ length: 49 }, (_, i) => {
    const turn = (i * LENGTH_MM) / 48 / radiusMm;
    return { yMm: radiusMm * Math.sin(turn), zMm: radiusMm * (1 - Math.cos(turn)) };
  });
  const rows = Array.from({ length: 41 }, (_, i) => (i * LENGTH_MM) / 40);
  const bevel = bevelOf(waves);
  return aJob({
    frame: { sidingMm: SIDING_MM, mouldingMm: 90, mouldedFace },
    shape: {
      ...picked(...rows.map((mm): [number, number] => [mm, bevel(mm)])),
      pattern: { file: 'pattern.csv', points },
    },
  });
}

/** The radius of the circle through three points of the outer flat: the points of the edge, moved inboard by the depth. */
function fittedMm(radiusMm: number, depthMm: (girthMm: number) => number, atMm: number): number {
  const [a, b, c] = [atMm - 2, atMm, atMm + 2].map((girthMm) => {
    const turn = girthMm / radiusMm;
    const r = radiusMm - depthMm(girthMm);
    return [r * Math.sin(turn), radiusMm - r * Math.cos(turn)] as const;
  }) as [readonly [number, number], readonly [number, number], readonly [number, number]];
  const side = (p: readonly [number, number], q: readonly [number, number]) => Math.hypot(q[0] - p[0], q[1] - p[1]);
  const twiceArea = (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]);
  return (side(a, b) * side(b, c) * side(c, a)) / (2 * twiceArea);
}

describe('the radius in which the outer wedge lies', () => {
  const waves = fc.record({
    radiusMm: fc.double({ min: 800, max: 3000, noNaN: true }),
    meanDeg: fc.double({ min: 8, max: 14, noNaN: true }),
    swingDeg: fc.double({ min: 0, max: 6, noNaN: true }),
    phase: fc.double({ min: 0, max: 6.28, noNaN: true }),
  });

  test('is that of its own flat where the moulded edge is the thick edge', () => {
    holds(
      fc.property(waves, (shape) => {
        // Under bevels on a forward moulded face: the outer wedge is thick forward, at the moulded edge.
        const { bend, marks } = planned(circleJob({ ...shape, meanDeg: -shape.meanDeg }, 'forward'));
        const bevel = bevelOf({ ...shape, meanDeg: -shape.meanDeg });
        // Second computation: along a fence the thin edge stays, the thick one is the siding's tangent more.
        const depth = (girthMm: number): number => 3 + SIDING_MM * Math.tan(rad(-bevel(girthMm)));
        for (const { mark, girthMm } of marks) {
          if (girthMm < 30 || girthMm > LENGTH_MM - 30) continue;
          const wantedMm = fittedMm(shape.radiusMm, depth, girthMm);
          const foundMm = bend?.marks.find((at) => at.mark === mark)?.outer.radiusMm ?? 0;
          // Where the flat turns the other way its concave face is the sawn one, the thick edge nearer to the centre.
          const concaveMm = wantedMm > 0 ? wantedMm : -wantedMm - depth(girthMm);
          if (concaveMm > 50_000) continue;
          expect(Math.abs(foundMm / concaveMm - 1)).toBeLessThan(0.03);
        }
      }),
      { numRuns: 25 },
    );
  });

  test('is that of its own flat for the inner wedge too: what the outer one leaves of the plank', () => {
    const shape = { radiusMm: 1500, meanDeg: -12, swingDeg: 5, phase: 1 };
    const { bend, marks } = planned(circleJob(shape, 'forward'));
    const outerMm = (girthMm: number): number => 3 + SIDING_MM * Math.tan(-rad(bevelOf(shape)(girthMm)));
    for (const { mark, girthMm, innerEdgesMm } of marks.slice(3, -3)) {
      const bothMm = innerEdgesMm[0] + outerMm(girthMm);
      const wantedMm =
        fittedMm(shape.radiusMm, (mm) => 90 - (bothMm - outerMm(mm)), girthMm) - Math.max(...innerEdgesMm);
      const foundMm = bend?.marks.find((at) => at.mark === mark)?.inner.radiusMm ?? 0;
      // The inner wedge lies on a shorter way, so that its places in the frame stand off by some centimetres.
      expect(Math.abs(foundMm / wantedMm - 1), `mark ${mark}: ${foundMm} for ${wantedMm}`).toBeLessThan(0.1);
    }
  });

  test('is the edge’s less the depth where the moulded edge is the thin one', () => {
    const { bend, marks } = planned(circleJob({ radiusMm: 1500, meanDeg: 12, swingDeg: 5, phase: 1 }, 'forward'));
    // The spline through the pattern's points has its own ends.
    for (const { mark } of marks.slice(3, -3))
      expect(Math.abs((bend?.marks[mark - 1]?.outer.radiusMm ?? 0) - 1497)).toBeLessThan(1);
  });

  test('was told 8 % and more too large where it was taken for the edge’s less the thickness', () => {
    const shape = { radiusMm: 1500, meanDeg: -12, swingDeg: 5, phase: 0 };
    const { bend, marks } = planned(circleJob(shape, 'forward'));
    const sharper = marks.map(({ mark, girthMm }) => {
      const thickMm = 3 + SIDING_MM * Math.tan(rad(-bevelOf(shape)(girthMm)));
      return (bend?.marks[mark - 1]?.outer.radiusMm ?? 0) / (shape.radiusMm - thickMm);
    });
    expect(Math.min(...sharper)).toBeLessThan(0.92);
  });
});

describe('the curvature of a flat', () => {
  test('at one depth is that of a parallel curve, and none where the turn is sharper than it lies deep', () => {
    expect(flatCurvature({ curvaturePerMm: 1 / 500, curvatureSlope: 0 }, 30, EVEN_FLATS.outer)).toBeCloseTo(
      1 / 470,
      12,
    );
    expect(flatCurvature({ curvaturePerMm: -1 / 500, curvatureSlope: 0 }, 30, EVEN_FLATS.outer)).toBeCloseTo(
      -1 / 530,
      12,
    );
    expect(flatCurvature({ curvaturePerMm: 1 / 30, curvatureSlope: 0 }, 30, EVEN_FLATS.outer)).toBe(null);
  });
  test('along a straight edge is that of the depth itself', () => {
    // d = x^2 / 2000 at x = 100: y'' / (1 + y'^2)^1.5 = 0.001 / 1.01^1.5.
    const along = { slope: 0.1, bendPerMm: 0.001 };
    expect(flatCurvature({ curvaturePerMm: 0, curvatureSlope: 0 }, 5, along)).toBeCloseTo(0.001 / 1.01 ** 1.5, 12);
  });
  test('in a turn that tightens counts how fast it does', () => {
    // By finite differences: an edge of curvature k = 0.001 + 2e-6 s, the depth 20 + 0.1 s + 0.0005 s^2.
    const h = 1e-2;
    const flat = (s: number) => {
      const steps = 2000;
      let [x, y, turn] = [0, 0, 0];
      for (let i = 0; i < steps; i++) {
        const ds = s / steps;
        const middle = turn + (0.001 + 2e-6 * (i + 0.5) * ds) * (ds / 2);
        x += Math.cos(middle) * ds;
        y += Math.sin(middle) * ds;
        turn += (0.001 + 2e-6 * (i + 0.5) * ds) * ds;
      }
      const d = 20 + 0.1 * s + 0.0005 * s * s;
      return [x - Math.sin(turn) * d, y + Math.cos(turn) * d] as const;
    };
    const [p, q, r] = [flat(-h), flat(0), flat(h)];
    const first = [(r[0] - p[0]) / (2 * h), (r[1] - p[1]) / (2 * h)] as const;
    const second = [(r[0] - 2 * q[0] + p[0]) / h ** 2, (r[1] - 2 * q[1] + p[1]) / h ** 2] as const;
    const wanted = (first[0] * second[1] - first[1] * second[0]) / Math.hypot(...first) ** 3;
    const found = flatCurvature({ curvaturePerMm: 0.001, curvatureSlope: 2e-6 }, 20, { slope: 0.1, bendPerMm: 0.001 });
    expect(found).toBeCloseTo(wanted, 6);
  });
});
