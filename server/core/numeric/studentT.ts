/**
 * Quantiles of Student's t by the Cornish-Fisher expansion: Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.5
 * (from memory; held against a printed table in test/core/numeric/studentT.test.ts).
 */

/** The normal deviate below which nine in ten lie. */
const NINE_IN_TEN = 1.2815515655446004;

/** Below this lie nine in ten of Student's t with so many degrees of freedom (at least 3: the expansion errs by less than 0.001 then). */
export function studentNineInTen(freedom: number): number {
  if (!(freedom >= 3)) throw new Error(`Student's t needs at least 3 degrees of freedom here, not ${freedom}`);
  const z = NINE_IN_TEN;
  const terms = [
    z,
    (z ** 3 + z) / 4,
    (5 * z ** 5 + 16 * z ** 3 + 3 * z) / 96,
    (3 * z ** 7 + 19 * z ** 5 + 17 * z ** 3 - 15 * z) / 384,
    (79 * z ** 9 + 776 * z ** 7 + 1482 * z ** 5 - 1920 * z ** 3 - 945 * z) / 92160,
  ];
  return terms.reduce((sum, term, power) => sum + term / freedom ** power, 0);
}
