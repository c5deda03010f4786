/** What fairing gains and what it leaves alone, measured over many hulls whose bevels are known exactly. */
import { describe, expect, test } from 'vitest';
import { fairHull } from '../../../server/core/hull/fairHull.ts';
import { fairOffsets } from '../../../server/core/hull/fairOffsets.ts';
import { hullSurface } from '../../../server/core/hull/surface.ts';
import { cases } from '../../kit/cases.ts';
import { evenly, offsetTable } from '../../kit/offsetTable.ts';
import { chance } from '../frame/fairFrames.ts';
import { type AnalyticHull, offsetsOf, randomHull } from './analyticHull.ts';
import { bevelError } from './bevelError.ts';

const [STATIONS, POINTS, FRAMES] = [21, 15, 5];
const EIGHTH_MM = 3.175;
const hulls = (count: number, from: number) => Array.from({ length: count }, (_, i) => randomHull(chance(from + i)));

/** The rms error of the bevels with fairing, over that without. */
function gain(hull: AnalyticHull, stations: number, points: number, stepMm: number): number {
  const table = offsetsOf(hull, stations, points, stepMm);
  const before = bevelError(hull, hullSurface(table), stations, FRAMES).rmsDeg;
  return bevelError(hull, fairHull(table).surface, stations, FRAMES).rmsDeg / before;
}

describe('fairing', () => {
  test.each([
    ['1 mm', 1],
    ['5 mm', 5],
    ['1/8 inch', EIGHTH_MM],
  ])('only ever improves the bevels of a table rounded to %s (40 hulls, or a quarter)', (_, stepMm) => {
    const gains = hulls(cases(40), 4000).map((hull) => gain(hull, STATIONS, POINTS, stepMm));
    expect(Math.max(...gains)).toBeLessThan(1);
    expect(gains.reduce((sum, one) => sum + one, 0) / gains.length).toBeLessThan(0.6);
  });

  test('and of tables of any make: 9 to 31 stations of 8 to 25 points, rounded to 0.5 to 10 mm (60 hulls, or a quarter)', () => {
    const gains = hulls(cases(60), 8000).map((hull, i) => {
      const draw = chance(9000 + i);
      const stepMm = [0.5, 1, 2, EIGHTH_MM, 5, 6.35, 10][Math.floor(7 * draw())] ?? 1;
      return gain(hull, 9 + Math.floor(23 * draw()), 8 + Math.floor(18 * draw()), stepMm);
    });
    expect(Math.max(...gains)).toBeLessThanOrEqual(1);
  });

  test('leaves exact tables alone, whatever it may move (100 hulls)', () => {
    for (const hull of hulls(100, 5000)) {
      const table = offsetsOf(hull, STATIONS, POINTS, 0);
      for (const toleranceMm of [0.5, 1.6]) {
        const { moved } = fairOffsets(table, toleranceMm);
        expect(moved).toEqual([]);
      }
    }
  });

  test('moves no point by more than it may, and tells each that it moved', () => {
    for (const hull of hulls(20, 6000)) {
      const table = offsetsOf(hull, STATIONS, POINTS, EIGHTH_MM);
      const { table: faired, moved } = fairOffsets(table, EIGHTH_MM / 2);
      const told = new Map(moved.map((point) => [`${point.station} ${point.fromMm}`, point.toMm]));
      table.stations.forEach(({ label, points }, i) => {
        points.forEach(({ yMm, zMm }, j) => {
          const to = faired.stations[i]?.points[j] ?? { yMm: Number.NaN, zMm: Number.NaN };
          expect(Math.hypot(to.yMm - yMm, to.zMm - zMm)).toBeLessThanOrEqual(EIGHTH_MM / 2 + 1e-9);
          const isMoved = to.yMm !== yMm || to.zMm !== zMm;
          expect(told.get(`${label} ${yMm},${zMm}`)).toEqual(isMoved ? [to.yMm, to.zMm] : undefined);
        });
      });
    }
  });

  test('with a tolerance of nothing it does nothing; a half-breadth of 0 stays on the middle line', () => {
    const [hull] = hulls(1, 7000);
    if (hull === undefined) throw new Error('no hull');
    const table = offsetsOf(hull, STATIONS, POINTS, 1);
    expect(fairOffsets(table, 0).moved).toEqual([]);
    const narrow = offsetTable(
      evenly(0, hull.traits.lengthMm, STATIONS),
      (x) => hull.section(x, POINTS).map(([y, z]) => [y - 45, z] as const),
      1,
    );
    const { table: faired, moved } = fairOffsets(narrow, 0.5);
    expect(moved.length).toBeGreaterThan(0);
    for (const { points } of faired.stations) expect(points[0]?.yMm).toBe(0);
  });

  test('is not asked of fewer than nine stations: too few to tell rounding from shape', () => {
    const [hull] = hulls(1, 7100);
    if (hull === undefined) throw new Error('no hull');
    expect(fairHull(offsetsOf(hull, 8, POINTS, 1)).moved).toEqual([]);
  });
});
