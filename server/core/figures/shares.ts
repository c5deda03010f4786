/** How many times, which part, how loud: figures that have no unit of their own. */
import { bareFigure, fixedFigure } from './decimals.ts';

/** A radius over a thickness, a level in dB, a scale: whole. */
export const wholeFigure = (size: number): string => fixedFigure(size, 0);

/** What is kept of a strength, or a rate of turning: to a hundredth. */
export const hundredthsFigure = (size: number): string => fixedFigure(size, 2);

/** With a blank that is not broken. */
export const percentText = (percent: number): string =>
  percent < 1 ? 'under 1\u00a0%' : `${bareFigure(percent, 0)}\u00a0%`;
