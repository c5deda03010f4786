/**
 * Bevels from tables of offsets against hulls whose bevels are known exactly: hollow garboards, a turn of bilge that takes a few points
 * of the table, 21 stations of 15 points. Away from the two outermost stations and from 5 % of the girth at either end: there the
 * splines have points on one side only, and the ends of a girth are where the garboard's hollow is deepest.
 */
import { describe, expect, test } from 'vitest';
import { fairHull } from '../../../server/core/hull/fairHull.ts';
import { hullSurface } from '../../../server/core/hull/surface.ts';
import { chance } from '../frame/fairFrames.ts';
import { analyticHull, offsetsOf, randomHull } from './analyticHull.ts';
import { atEnds, type BevelError, bevelError } from './bevelError.ts';

const [STATIONS, POINTS, FRAMES] = [21, 15, 9];
const EIGHTH_MM = 3.175;
const HULLS = Array.from({ length: 12 }, (_, i) => randomHull(chance(900 + i)));

/** The worst of all places, and the root mean square over all hulls. */
function over(errors: readonly BevelError[]): BevelError {
  const squares = errors.reduce((sum, { rmsDeg }) => sum + rmsDeg * rmsDeg, 0);
  return { maxDeg: Math.max(...errors.map(({ maxDeg }) => maxDeg)), rmsDeg: Math.sqrt(squares / errors.length) };
}

describe('twelve fresh hulls of 21 stations and 15 points', () => {
  test.each([
    ['exact offsets', 0, 0.09, 0.004],
    ['rounded to 1 mm', 1, 0.11, 0.024],
    ['rounded to 1/8 inch', EIGHTH_MM, 0.28, 0.051],
  ])('%s: as good as the README says of sixty others, or worse by a tenth', (_, stepMm, maxDeg, rmsDeg) => {
    const found = over(
      HULLS.map((hull) =>
        bevelError(hull, fairHull(offsetsOf(hull, STATIONS, POINTS, stepMm)).surface, STATIONS, FRAMES),
      ),
    );
    expect(found.maxDeg).toBeLessThan(1.1 * maxDeg);
    expect(found.rmsDeg).toBeLessThan(1.1 * rmsDeg);
  });

  test('as drawn it is fourth order: half the spacing, a tenth of the error', () => {
    const [coarse, fine] = ([0.5, 1] as const).map((times) =>
      over(
        HULLS.slice(0, 4).map((hull) => {
          const stations = 20 * times + 1;
          const surface = hullSurface(offsetsOf(hull, stations, 28 * times + 1, 0));
          return bevelError(hull, surface, 11, FRAMES);
        }),
      ),
    );
    expect(fine?.rmsDeg).toBeLessThan((coarse?.rmsDeg ?? 0) / 10);
  });
});

/** A lean yacht with a bilge so hard that it takes two points of the table's fifteen, and a hollow that is gone at a tenth of the girth. */
const HARD = analyticHull({
  lengthMm: 11_000,
  girthMm: 2700,
  fineness: 0.95,
  deadriseRad: [0.12, 0.9],
  topsidesRad: [1.58, 1.1],
  bilge: { at: 0.5, shift: 0.05, width: 0.06 },
  hollowRad: 0.55,
  rockerMm: 260,
});

describe('where it is worse, and why', () => {
  test('a bilge that turns between two points of the table: the points do not tell how', () => {
    const fewPoints = bevelError(HARD, hullSurface(offsetsOf(HARD, STATIONS, POINTS, 0)), STATIONS, FRAMES);
    const moreThere = bevelError(HARD, hullSurface(offsetsOf(HARD, STATIONS, 29, 0)), STATIONS, FRAMES);
    expect(fewPoints.maxDeg).toBeLessThan(0.09);
    expect(moreThere.maxDeg).toBeLessThan(fewPoints.maxDeg / 10);
  });

  test.each([
    ['exact offsets', 0, 0.5],
    ['rounded to 1 mm', 1, 0.6],
    ['rounded to 1/8 inch', EIGHTH_MM, 1.8],
  ])(
    'at the outermost stations and the ends of the girth there are points on one side only: %s',
    (_, stepMm, maxDeg) => {
      const errors = HULLS.map((hull) => atEnds(hull, fairHull(offsetsOf(hull, STATIONS, POINTS, stepMm)).surface));
      // The README's figures.
      expect(over(errors).maxDeg).toBeLessThan(maxDeg);
    },
  );
});
