import { describe, expect, test } from 'vitest';
import {
  byOwnSection,
  centroidFromFlatMm,
  innerCentroidMm,
  innerFlatDepthMm,
  lengthsAlongMm,
  outerDepthMm,
} from '../../../server/core/rip/unbentLength.ts';

describe('the neutral line of a wedge', () => {
  test('the centroid of the section, against the same area cut into a million slices', () => {
    const [a, b, siding] = [13.2, 3, 48];
    let area = 0;
    let moment = 0;
    const slices = 1e6;
    for (let i = 0; i < slices; i++) {
      const thick = a + ((b - a) * (i + 0.5)) / slices;
      area += (thick * siding) / slices;
      moment += (thick * thick * siding) / slices / 2;
    }
    expect(centroidFromFlatMm(a, b)).toBeCloseTo(moment / area, 8);
    expect(centroidFromFlatMm(10, 10)).toBe(5);
  });

  test('the outer one lies outboard of its flat, the inner one inboard of its own', () => {
    // Parallel layers 10 thick in a moulding of 75: 5 and 70 deep.
    expect(outerDepthMm([10, 10], 'forward')).toBe(5);
    expect(innerFlatDepthMm([10, 10], 'forward', 75) + innerCentroidMm([10, 10], 'forward')).toBe(70);
    // The moulded edge is the thin one: the middle of the outer wedge lies outboard of the moulded edge.
    expect(outerDepthMm([3, 13], 'forward')).toBeLessThan(0);
    expect(outerDepthMm([3, 13], 'aft')).toBeCloseTo(13 - centroidFromFlatMm(3, 13), 12);
  });
});

describe('lengths along a bent line', () => {
  test('a parallel line inside an arc is shorter by the depth times the angle', () => {
    const radius = 1000;
    const girths = [0, 100, 350, 1570.796];
    const lengths = lengthsAlongMm(girths, () => 1 - 40 / radius);
    for (const [i, girth] of girths.entries()) expect(lengths[i]).toBeCloseTo(girth * 0.96, 9);
  });

  /** Second computation: the line itself, built point by point in the section's plane and measured with a fine chain. */
  test('against the line built in the plane and chained, with curvature and depth both changing', () => {
    const curvature = (s: number) => 1 / 1500 - 0.0004 * Math.cos(s / 210);
    const depth = (s: number) => 20 + 15 * Math.sin(s / 170);
    const girths = Array.from({ length: 13 }, (_, i) => i * 120);
    const lengths = lengthsAlongMm(girths, (s) => 1 - curvature(s) * depth(s));

    const step = 0.02;
    let [x, y, heading, along, next] = [0, 0, 0, 0, 1];
    for (let i = 0; next < girths.length; i++) {
      const s = (i + 0.5) * step;
      // Along the tangent only: a change of depth is a taper of the wedge, not a longer way for its fibres.
      heading += curvature(s) * step;
      const [tx, ty] = [Math.cos(heading), Math.sin(heading)];
      const before = [x - ty * depth(s), y + tx * depth(s)] as const;
      const turn = curvature(s) * step;
      const [x2, y2] = [x + tx * step, y + ty * step];
      const after = [x2 - Math.sin(heading + turn) * depth(s), y2 + Math.cos(heading + turn) * depth(s)] as const;
      along += Math.hypot(after[0] - before[0], after[1] - before[1]);
      [x, y] = [x2, y2];
      if ((i + 1) * step >= (girths[next] ?? 0) - step / 2) {
        expect(Math.abs(along - (lengths[next] ?? 0))).toBeLessThan(0.01);
        next += 1;
      }
    }
  });

  /** Derived: around a quarter of a circle a line that lies 2 mm deeper than reckoned is 2 x pi / 2 shorter. */
  test('a line reckoned too far out is put right', () => {
    const girthsMm = Array.from({ length: 101 }, (_, i) => (i * 1000 * Math.PI) / 200);
    const curvaturesPerMm = girthsMm.map(() => 1 / 1000);
    const line = { girthsMm, alongMm: girthsMm, curvaturesPerMm };
    const right = byOwnSection(
      line,
      girthsMm.map(() => 5),
      girthsMm.map(() => 7),
    );
    expect(right[0]).toBe(0);
    expect((girthsMm.at(-1) ?? 0) - (right.at(-1) ?? 0)).toBeCloseTo(Math.PI, 9);
  });

  test('holds its error bound over a curvature that jumps', () => {
    const stretch = (s: number) => (s < 333.3 ? 0.9 : 1.1);
    const girths = Array.from({ length: 201 }, (_, i) => i * 5);
    expect(Math.abs((lengthsAlongMm(girths, stretch).at(-1) ?? 0) - (0.9 * 333.3 + 1.1 * 666.7))).toBeLessThan(0.01);
  });
});
