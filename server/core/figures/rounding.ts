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

/** To a whole number of steps. Twelve figures take the dust of binary fractions off: 3 x 0.1 is 0.3 then. */
export const toStep = (size: number, step: number, how: Exact): number => wholeSteps(stepsOf(size / step, how), step);

/** The nearest figure that a readout can show; halves go away from zero, so that both hands round alike. Never -0. */
export const toReadoutStep = (deg: number, stepDeg: number): number =>
  wholeSteps(Math.sign(deg) * Math.floor(Math.abs(deg) / stepDeg + 0.5 + 1e-9), stepDeg);

const wholeSteps = (steps: number, step: number): number => Number((steps * step).toPrecision(12)) + 0;

/** A feed down to a hundredth, or to two figures of what is less than a tenth: never more than it is, and never nothing. */
export function roundedDown(mPerMin: number): number {
  const step = mPerMin >= 0.1 ? 0.01 : 10 ** (Math.floor(Math.log10(mPerMin)) - 1);
  return wholeSteps(Math.floor(mPerMin / step + 1e-9), step);
}
