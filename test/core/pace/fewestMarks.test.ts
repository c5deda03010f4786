import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fewestMarks, type GridPlace, leastTolerance } from '../../../server/core/pace/fewestMarks.ts';
import { holds } from '../../kit/holds.ts';

const STEP = 0.5;
const gridOf = (tilts: readonly number[], alongs?: readonly number[]): GridPlace[] =>
  tilts.map((tiltDeg, i) => ({
    alongMm: alongs?.[i] ?? i * 10,
    tiltDeg,
    calledTiltDeg: Math.round(tiltDeg / STEP) * STEP,
  }));

/** The greatest distance between the wanted tilt and the one that is turned evenly from mark to mark. */
function worstOf(grid: readonly GridPlace[], marks: readonly number[]): number {
  let worst = 0;
  marks.slice(1).forEach((to, n) => {
    const [a, b] = [grid[marks[n] ?? 0], grid[to]];
    if (a === undefined || b === undefined) throw new Error('no such place');
    for (const { alongMm, tiltDeg } of grid.slice(marks[n], to + 1)) {
      const share = (alongMm - a.alongMm) / (b.alongMm - a.alongMm);
      worst = Math.max(worst, Math.abs(a.calledTiltDeg + share * (b.calledTiltDeg - a.calledTiltDeg) - tiltDeg));
    }
  });
  return worst;
}

/** Every choice of marks, tried. */
function fewestByTrying(grid: readonly GridPlace[], toleranceDeg: number): number | undefined {
  const inner = grid.length - 2;
  let fewest: number | undefined;
  for (let choice = 0; choice < 2 ** inner; choice++) {
    const marks = grid.flatMap((_, i) => (i === 0 || i === inner + 1 || (choice >> (i - 1)) & 1 ? [i] : []));
    if (worstOf(grid, marks) <= toleranceDeg + 1e-9) fewest = Math.min(fewest ?? marks.length, marks.length);
  }
  return fewest;
}

const grids = fc
  .array(fc.tuple(fc.double({ min: -12, max: 12, noNaN: true }), fc.integer({ min: 3, max: 40 })), {
    minLength: 2,
    maxLength: 9,
  })
  .map((places) => {
    let along = 0;
    const alongs = places.map(([, gap]) => {
      along += gap;
      return along;
    });
    return gridOf(
      places.map(([deg]) => deg / 4),
      alongs,
    );
  });

describe('the fewest marks within a tolerance', () => {
  test('are as few as the best of all choices tried, and stay within it', () => {
    holds(
      fc.property(grids, fc.double({ min: 0.05, max: 2, noNaN: true }), (grid, tolerance) => {
        const marks = fewestMarks(grid, tolerance);
        expect(marks?.length).toBe(fewestByTrying(grid, tolerance));
        if (marks === undefined) return;
        expect(worstOf(grid, marks)).toBeLessThanOrEqual(tolerance + 1e-8);
        expect([marks[0], marks.at(-1)]).toStrictEqual([0, grid.length - 1]);
      }),
      { numRuns: 300 },
    );
  });

  test('two on a straight run of bevels, and more the closer it has to be', () => {
    expect(fewestMarks(gridOf([0, 1, 2, 3, 4]), 0.25)).toStrictEqual([0, 4]);
    const arch = gridOf(Array.from({ length: 181 }, (_, i) => 12 * Math.sin((i * Math.PI) / 180)));
    const counts = [2, 1, 0.5, 0.3, 0.26].map((tolerance) => fewestMarks(arch, tolerance)?.length ?? 0);
    expect(counts).toStrictEqual([...counts].sort((a, b) => a - b));
    expect(counts[0]).toBeGreaterThan(2);
  });

  test('as even as they can be where several choices are equally few', () => {
    // A peak that is wide enough to stand anywhere on: the middle is taken.
    expect(fewestMarks(gridOf([0, 0.9, 1.9, 2, 1.9, 0.9, 0]), 0.6)).toStrictEqual([0, 3, 6]);
  });

  test('there are none where the readout cannot show the first bevel closely enough, and the least tolerance is told', () => {
    const grid = gridOf([0.25, 1, 2]);
    expect(fewestMarks(grid, 0.2)).toBeUndefined();
    expect(leastTolerance(grid)).toBeCloseTo(0.25, 2);
    expect(fewestMarks(grid, leastTolerance(grid))).toBeDefined();
  });
});
