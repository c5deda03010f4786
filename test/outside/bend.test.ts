/** Bending against figures from outside: each test names its source and its status. */
import { describe, expect, test } from 'vitest';
import { bendsAt, leastRadiusOverThickness } from '../../server/core/stack/bendLimit.ts';

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
  const [outer] = bendsAt(320 + 3.2, { outerMm: [3.2, 3.2], innerMm: [3.2, 3.2] }, 'forward', 40);
  expect(outer.radiusMm / outer.thicknessMm).toBeCloseTo(leastRadiusOverThickness('white oak'), 9);
});
