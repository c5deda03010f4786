/** Lengths as the user writes them. */
import { MM_PER_INCH } from './units.ts';

/**
 * How a length is rounded: to the nearest figure; never under what is needed; never over what is allowed; or `about`, for a radius,
 * of which no more figures are told than anyone could use.
 */
export type Rounding = Exact | About;
export type Exact = 'nearest' | 'at least' | 'at most';
type About = 'about' | 'about, at least';
export const isAbout = (how: Rounding): how is About => how === 'about' || how === 'about, at least';

/** Writes a length in the user's units, with its unit. */
export type Length = (mm: number, how?: Rounding) => string;

/** `1234.5 mm` or `48.6 in`, to a tenth of a millimetre or a hundredth of an inch; small lengths to a thousandth. */
export function lengthText(mm: number, units: 'mm' | 'in', how: Rounding = 'nearest'): string {
  if (isAbout(how)) return `${aboutFigure(mm, units, how)} ${units}`;
  if (units === 'mm') return `${rounded(mm, 1, how)} mm`;
  return `${rounded(mm / MM_PER_INCH, isSmall(mm) ? 3 : 2, how)} in`;
}

/** Under a sixteenth of an inch a hundredth or a thirty-second tells too little, or nothing. */
export const isSmall = (mm: number): boolean => Math.abs(mm) < MM_PER_INCH / 16;

/** To so many decimals. A hair of rounding does not cost a step. */
export function rounded(size: number, decimals: number, how: Exact): number {
  if (how === 'nearest') return Number(size.toFixed(decimals));
  return Number((stepsOf(size * 10 ** decimals, how) / 10 ** decimals).toFixed(decimals));
}

/** Whole steps. */
export function stepsOf(steps: number, how: Exact): number {
  if (how === 'nearest') return Math.round(steps);
  return how === 'at least' ? Math.ceil(steps - 1e-6) : Math.floor(steps + 1e-6);
}

/** From here on three figures are told of a radius. */
const FAR_MM = 10_000;
const FAR_IN = 100;

/** Without its unit: to a millimetre, or a tenth of an inch. */
export function aboutFigure(mm: number, units: 'mm' | 'in', how: About = 'about'): string {
  const [size, decimals, far] = units === 'mm' ? [mm, 0, FAR_MM] : [mm / MM_PER_INCH, 1, FAR_IN];
  const round = how === 'about' ? 'nearest' : 'at least';
  if (Math.abs(size) < far) return rounded(size, decimals, round).toFixed(decimals);
  const tens = Math.floor(Math.log10(Math.abs(size))) - 2;
  return `${stepsOf(size / 10 ** tens, round) * 10 ** tens}`;
}
