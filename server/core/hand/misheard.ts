import type { Draws } from '../numeric/draws.ts';

/** Digits that are taken for one another in noise: six and three, nine and five (check values of the voice, measured). */
const TAKEN_FOR: Readonly<Record<string, string>> = { '6': '3', '3': '6', '9': '5', '5': '9' };

/** Another number for which this one is taken when one of its digits is; null where none of them sounds like another. */
export function heardInstead(deg: number, draw: Draws): number | null {
  const digits = [...String(deg)];
  const alike = digits.flatMap((digit, index) => (digit in TAKEN_FOR ? [index] : []));
  const at = alike[Math.floor(draw.even() * alike.length)];
  if (at === undefined) return null;
  return Number(digits.map((digit, index) => (index === at ? TAKEN_FOR[digit] : digit)).join(''));
}
