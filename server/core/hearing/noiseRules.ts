/** How long an ear may be in a noise in one day, by two published rules. They advise; the rules of the place go first. */

export interface NoiseRule {
  readonly name: string;
  /** Eight hours of this, in dBA, are a whole day's allowance. */
  readonly criterionDba: number;
  /** So many dB more halve the time. */
  readonly exchangeDb: number;
  /** Continuous noise above this is allowed for no time at all. */
  readonly ceilingDba: number;
  /** Less than this is not counted. */
  readonly fromDba: number;
}

const DAY_MIN = 480;

/**
 * OSHA 29 CFR 1910.95: the allowances of table G-16 (which ends at 115 dBA), counted from 80 dBA as its paragraph (d)(2)(i)
 * counts for hearing conservation, so that a day of 85 dBA is half a dose, its action level. Never less than G-16 alone counts.
 */
export const OSHA: NoiseRule = { name: 'OSHA', criterionDba: 90, exchangeDb: 5, ceilingDba: 115, fromDba: 80 };

/**
 * NIOSH publication 98-126: 85 dBA for eight hours, 3 dB to halve the time, none above 140 dBA; its dose is counted from 80 dBA.
 * Continuous noise above 115 dBA would be allowed for under half a minute: it is taken for none.
 */
export const NIOSH: NoiseRule = { name: 'NIOSH', criterionDba: 85, exchangeDb: 3, ceilingDba: 115, fromDba: 80 };

/** Minutes of one day; Infinity where the noise does not count, 0 above the ceiling. */
export function allowedMin({ criterionDba, exchangeDb, ceilingDba, fromDba }: NoiseRule, dba: number): number {
  if (dba > ceilingDba) return 0;
  if (dba < fromDba) return Number.POSITIVE_INFINITY;
  return DAY_MIN / 2 ** ((dba - criterionDba) / exchangeDb);
}

interface NoiseSpell {
  readonly dba: number;
  readonly minutes: number;
}

/** The share of the day's allowance that these stretches take, in percent: the sum of C/T of both rules. Infinity past a ceiling. */
export function dosePercent(rule: NoiseRule, stretches: readonly NoiseSpell[]): number {
  const shares = stretches.map(({ dba, minutes }) => (minutes <= 0 ? 0 : minutes / allowedMin(rule, dba)));
  return 100 * shares.reduce((sum, share) => sum + share, 0);
}
