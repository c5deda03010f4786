import { bareFigure } from '../figures/decimals.ts';
import { stepsOf } from '../figures/rounding.ts';

/**
 * What slip of the pencil would explain a bevel, if one would: the sign turned, two digits changed about, the point misplaced.
 * Common practice, no source: these are the slips that turn up when a list is called out on a boat and written down.
 */
export function slipOf(foundDeg: number, fairDeg: number, withinDeg: number): string | undefined {
  const turned = { deg: -foundDeg, slip: 'the sign slipped' };
  const swapped = { deg: withDigitsSwapped(foundDeg), slip: 'two digits changed places' };
  const pointed = [10, 0.1].map((times) => ({ deg: foundDeg * times, slip: 'the point slipped' }));
  const near = [turned, swapped, ...pointed]
    .filter(({ deg }) => Math.abs(deg - fairDeg) <= withinDeg)
    .sort((a, b) => Math.abs(a.deg - fairDeg) - Math.abs(b.deg - fairDeg))[0];
  return near && `${near.slip}: ${inWords(near.deg)} would be fair`;
}

/** 21 for 12; the bevel itself where it has not two digits before the point, or would lose one. */
function withDigitsSwapped(deg: number): number {
  const whole = Math.trunc(Math.abs(deg));
  if (whole < 10 || whole > 99 || whole % 10 === 0) return deg;
  const swapped = (whole % 10) * 10 + Math.floor(whole / 10);
  return Math.sign(deg) * (swapped + Math.abs(deg) - whole);
}

const inWords = (deg: number): string => bareFigure(stepsOf(deg * 10, 'nearest') / 10, 1);
