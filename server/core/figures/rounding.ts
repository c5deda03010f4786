/**
 * How a length is rounded: to the nearest figure; never under what is needed; never over what is allowed; or `about`, for a radius,
 * of which no more figures are told than anyone could use.
 */
export type Rounding = Exact | About;
export type Exact = 'nearest' | 'at least' | 'at most';
export type About = 'about' | 'about, at least';
export const isAbout = (how: Rounding): how is About => how === 'about' || how === 'about, at least';

/** To so many decimals. A hair of rounding does not cost a step. */
export function rounded(size: number, decimals: number, how: Exact): number {
  if (how === 'nearest') return Number(size.toFixed(decimals)) + 0;
  return Number((stepsOf(size * 10 ** decimals, how) / 10 ** decimals).toFixed(decimals)) + 0;
}

/** Whole steps. */
export function stepsOf(steps: number, how: Exact): number {
  if (how === 'nearest') return Math.round(steps) + 0;
  return (how === 'at least' ? Math.ceil(steps - 1e-6) : Math.floor(steps + 1e-6)) + 0;
}
