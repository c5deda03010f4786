/** Bending against figures from outside: each test names its source and its status. */
import { describe, expect, test } from 'vitest';
import { layCut } from '../../server/core/rip/cut.ts';
import { wedgesOf } from '../../server/core/rip/wedges.ts';
import { breakingRadiusOverThickness, leastRadiusOverThickness } from '../../server/core/stack/bendLimit.ts';
import { EVEN_FLATS } from '../../server/core/stack/flats.ts';
import { bendsOf, strengthKept } from '../../server/core/stack/wedgeBend.ts';

/**
 * Curvature factor Cc = 1 - 2000 (t/R)^2 and the limits t/R <= 1/100 for hardwoods and southern pine, <= 1/125 for other
 * softwoods. Read: Civil Engineering Formulas, McGraw-Hill, p. 167, eq. 6.29 (clause number of the NDS from memory).
 */
describe('how sharply a layer may be bent (Civil Engineering Formulas, eq. 6.29, read)', () => {
  const curvatureFactor = (radiusOverThickness: number) => 1 - 2000 / radiusOverThickness ** 2;
  test('hardwood keeps 0.800 of its strength at its limit, other softwood 0.872', () => {
    expect(curvatureFactor(leastRadiusOverThickness('white oak'))).toBeCloseTo(0.8, 3);
    expect(curvatureFactor(leastRadiusOverThickness('southern pine'))).toBeCloseTo(0.8, 3);
    expect(curvatureFactor(leastRadiusOverThickness('Douglas-fir'))).toBeCloseTo(0.872, 3);
  });
});

/**
 * Breaking limit R/t = E / (2 MOR) from the Wood Handbook's table 5-3a (FPL; white oak second-hand, Douglas-fir read):
 * derived; white oak 12,300 / (2 x 105) = 58.6, Douglas-fir 13,400 / (2 x 85) = 78.8. Our limits must lie well above.
 */
test.each([
  ['white oak', 12_300, 105, 58.6],
  ['Douglas-fir', 13_400, 85, 78.8],
])('the limit for %s stays clear of breaking', (species, moeMPa, morMPa, breaking) => {
  expect(moeMPa / (2 * morMPa)).toBeCloseTo(breaking, 1);
  expect(leastRadiusOverThickness(species)).toBeGreaterThan(1.5 * breaking);
});

/** Derived: a lamination of 1/8 in (3.2 mm; common practice, no source) of oak may lie in a radius of 320 mm and no less. */
test('a parallel layer of 3.2 mm at a radius of 320 mm is just at the limit of oak', () => {
  const layer = { mark: 1, radiusMm: 320 + 3.2, outerMm: [3.2, 3.2], innerMm: [3.2, 3.2], layers: 1 } as const;
  const [outer] = bendsOf(layer, EVEN_FLATS, 'forward', 40);
  expect(outer?.radiusOverThickness).toBeCloseTo(leastRadiusOverThickness('white oak'), 9);
});

/** Read: Civil Engineering Formulas, McGraw-Hill, p. 167, eq. 6.29: R/t 100 keeps 0.800, 125 0.872, 150 0.9111, 200 0.950. */
test.each([
  [100, 0.8],
  [125, 0.872],
  [150, 0.9111],
  [200, 0.95],
])('at R/t %d a layer keeps %d of its strength', (ratio, kept) => expect(strengthKept(ratio)).toBeCloseTo(kept, 4));

/**
 * E / (2 MOR), derived from the Wood Handbook's table 5-3a: white oak 58.6, black locust 52.6, Douglas-fir 78.8 (oak
 * second-hand, strength of locust from memory, Douglas-fir read).
 */
test.each([
  ['white oak', 58.6],
  ['black locust', 52.6],
  ['Douglas-fir, coast', 78.8],
])('%s breaks at R/t %d', (species, ratio) => expect(breakingRadiusOverThickness(species)).toBeCloseTo(ratio, 1));

/** Derived: 60 mm siding, 20 degrees, 3 mm thin edge: 3 + 60 tan 20 = 24.8 mm, nearly eight laminations of 3.2 mm. */
test('the thick edge of a wedge is many laminations thick', () => {
  const cut = layCut({ kerfMm: 2.4, straightAtMm: 0 }, 60, [0, 20]);
  expect(Math.max(...wedgesOf(cut, 20, 'aft').outerMm)).toBeCloseTo(24.84, 2);
});
