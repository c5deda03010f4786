import { describe, expect, test } from 'vitest';
import { lineWanderOf } from '../../../server/core/rip/lineWander.ts';
import { aJob, picked } from '../../kit/aJob.ts';
import { planned } from '../../kit/planned.ts';
import { ripOf } from '../../kit/sawnFrame.ts';

const tan = (deg: number): number => Math.tan((deg * Math.PI) / 180);
const range = (values: readonly number[]): number => Math.max(...values) - Math.min(...values);

describe('fed along a fence', () => {
  test('the cut keeps its distance from the reference face at the height of the tilt axis, and nobody steers', () => {
    for (const pivotHeightMm of [0, 20, -15]) {
      const { marks, rip } = planned(aJob({ saw: { pivotHeightMm } }));
      const atAxis = marks.map(
        ({ lineTopMm, lineBottomMm }) => lineBottomMm + ((lineTopMm - lineBottomMm) * pivotHeightMm) / 48,
      );
      expect(range(atAxis)).toBeLessThan(1e-9);
      expect(rip?.line.steerMm).toBe(0);
    }
  });
  test('with the axis at the table the edge on the table keeps its thickness but for the kerf, so the flat is a constant offset', () => {
    const { marks, frame, thickEdge } = planned(aJob());
    const onTable = thickEdge === 'aft' ? 0 : 1;
    expect(frame.mouldedFace).toBe(onTable === 0 ? 'forward' : 'aft');
    expect(range(marks.map(({ outerEdgesMm }) => outerEdgesMm[onTable]))).toBeLessThan(
      1.2 / Math.cos((11 * Math.PI) / 180) - 1.2 + 0.01,
    );
  });
});

describe('following a line', () => {
  const through = (saw = {}) => planned(aJob({ rip: { feeds: 'along a line' }, saw }));
  test('through the middle both wedges are alike, one reversed, and the line wanders as much above as below', () => {
    const { marks, stock, rip } = through();
    for (const { lineTopMm, lineBottomMm, outerEdgesMm, innerEdgesMm } of marks) {
      expect((lineTopMm + lineBottomMm) / 2).toBeCloseTo(stock.thicknessMm / 2, 9);
      expect(innerEdgesMm[0]).toBeCloseTo(outerEdgesMm[1], 9);
      expect(innerEdgesMm[1]).toBeCloseTo(outerEdgesMm[0], 9);
    }
    expect(rip?.line.upperWanderMm).toBeCloseTo(rip?.line.lowerWanderMm ?? 0, 9);
  });
  test('the wander is what the marks show, and the sawyer steers it where the axis lies at the table', () => {
    const { marks, rip } = through();
    const { line } = rip ?? ripOf(through());
    expect(Math.abs(line.upperWanderMm - range(marks.map(({ lineTopMm }) => lineTopMm)))).toBeLessThan(0.05);
    const tans = marks.map(({ sawnDeg }) => tan(sawnDeg));
    expect(Math.abs(line.steerMm - 24 * range(tans))).toBeLessThan(0.05);
  });
  test('with the axis at the height of the line nothing is left to steer', () => {
    const { rip } = through({ pivotHeightMm: 24 });
    expect(rip?.line.steerMm).toBe(0);
    expect(rip?.straightAtMm).toBe(24);
  });
  test('the line may run at any height: at the table the stock is cut as along a fence with its axis there', () => {
    const followed = planned(aJob({ rip: { feeds: 'along a line', lineHeightMm: 0 }, saw: { pivotHeightMm: 30 } }));
    const fenced = planned(aJob());
    expect(followed.marks.map(({ outerEdgesMm }) => outerEdgesMm)).toStrictEqual(
      fenced.marks.map(({ outerEdgesMm }) => outerEdgesMm),
    );
    expect(ripOf(followed).line.steerMm).toBeGreaterThan(4);
  });
  test('either way the stock is 2a + s tan b + k / cos b thick for bevels of one hand', () => {
    const shape = picked([0, 2], [900, 14], [1800, 2]);
    const most = Math.max(...planned(aJob({ shape })).curve.map(({ bevelDeg }) => bevelDeg));
    const thickMm = 2 * 5 + 48 * tan(most) + 2.4 / Math.cos((most * Math.PI) / 180);
    for (const feeds of ['along a fence', 'along a line'] as const) {
      const made = planned(aJob({ shape, rip: { feeds, thinnestEdgeMm: 5, cleaningUpMm: 3 } }));
      expect(Math.abs(made.stock.thicknessMm - thickMm)).toBeLessThan(0.02);
      expect(made.stock.widthMm).toBe(48 + 6);
      expect(ripOf(made).roughThicknessMm).toBeCloseTo(made.stock.thicknessMm + 6, 9);
    }
  });
  test('a kerf makes the wedges thinner and leaves every bevel as it is', () => {
    const [narrow, wide] = [planned(aJob({ saw: { kerfMm: 1.5 } })), planned(aJob({ saw: { kerfMm: 4 } }))];
    for (const [
      i,
      {
        sawnDeg,
        outerEdgesMm: [f, a],
      },
    ] of narrow.marks.entries()) {
      const other = wide.marks[i];
      expect(other?.sawnDeg).toBe(sawnDeg);
      expect((other?.outerEdgesMm[1] ?? 0) - (other?.outerEdgesMm[0] ?? 0)).toBeCloseTo(a - f, 9);
    }
  });
});

/** Derived: tan b = x^2 / 2R h bends the line at the height h by 1/R. */
test('the radius of the line, on a line that is an arc', () => {
  const [radius, height] = [20_000, 48];
  const places = Array.from({ length: 201 }, (_, i) => {
    const stockMm = i * 5;
    return { stockMm, tiltDeg: (Math.atan((stockMm - 500) ** 2 / (2 * radius * height)) * 180) / Math.PI };
  });
  const cut = { sidingMm: height, kerfMm: 2, straightAtMm: 0, lineMm: 4, thicknessMm: 20 };
  expect(lineWanderOf(cut, 0, places).leastRadiusMm).toBeCloseTo(radius, 4);
  const even = places.map(({ stockMm }) => ({ stockMm, tiltDeg: 7 }));
  // Over 100 m it is as good as straight.
  const hardly = places.map(({ stockMm, tiltDeg }) => ({ stockMm, tiltDeg: (tiltDeg * radius) / 150_000 }));
  expect(lineWanderOf(cut, 0, hardly).leastRadiusMm).toBeNull();
  expect(lineWanderOf(cut, 0, even)).toMatchObject({ leastRadiusMm: null, upperWanderMm: 0 });
});

/** The wedge solid, sliced: what comes off is the stock less both wedges, and that is the kerf along the blade's own way. */
test('both wedges and the kerf are the whole stock, by slices', () => {
  const made = planned(aJob({ marks: { kind: 'spacing', spacingMm: 5 } }));
  const { thicknessMm } = made.stock;
  let [wedges, kerf] = [0, 0];
  for (const {
    outerEdgesMm: [a, b],
    innerEdgesMm: [c, d],
    sawnDeg,
  } of made.marks) {
    const slices = 200;
    for (let i = 0; i < slices; i++) {
      const u = (i + 0.5) / slices;
      wedges += ((a + u * (b - a) + (c + u * (d - c))) * 48) / slices;
    }
    // Across the blade the kerf is 2.4 wide and its way through the siding 48 / cos b long.
    kerf += (2.4 * 48) / Math.cos((sawnDeg * Math.PI) / 180);
  }
  expect((wedges + kerf) / (made.marks.length * 48 * thicknessMm)).toBeCloseTo(1, 12);
});
