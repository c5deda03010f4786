import { stepsOf } from '../figures/rounding.ts';

/**
 * Which way the bevel goes, for the eye: `more` is away from square on the side where the tilt stands now, `less` toward
 * square. A turn through square begins with `less`. By size, not by sign: a growing under bevel is more, too.
 */
export function turnWord(fromDeg: number, toDeg: number): 'more' | 'less' | 'same' {
  const from = hundredths(fromDeg);
  const to = hundredths(toDeg);
  if (from === to) return 'same';
  return from === 0 || to / from > 1 ? 'more' : 'less';
}

/** Degrees in whole hundredths (never -0): takes the dust of binary fractions off a readout's figure. */
export const hundredths = (deg: number): number => stepsOf(deg * 100, 'nearest');
