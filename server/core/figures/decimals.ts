/** A number as a decimal figure, whatever it counts. Never `-0`, and for all sizes that people read never an exponent. */
import { type Exact, rounded } from './rounding.ts';

/** With always as many decimals, so that figures in a column or on a display keep their width: 12.0. */
export function fixedFigure(size: number, decimals: number, how: Exact = 'nearest'): string {
  const figure = (how === 'nearest' ? size : rounded(size, decimals, how)).toFixed(decimals);
  return Number(figure) === 0 ? figure.replace('-', '') : figure;
}

/** With at most as many (6 or fewer), no noughts behind them: 12, for a sentence. */
export const bareFigure = (size: number, decimals: number): string => `${rounded(size, decimals, 'nearest')}`;

/** A plus before what is above nought as it is written; a nought has no sign. */
export const withPlus = (figure: string): string => (Number(figure) > 0 ? `+${figure}` : figure);

/** The true minus, as wide as a digit's bar, for what is drawn: pages and paper. No sign at a nought. */
export const withTrueMinus = (figure: string): string =>
  Number(figure) === 0 ? figure.replace('-', '') : figure.replace(/^-/, '\u2212');

/** As many as a step has, 3 at most: 0.5 has one. */
export const decimalsOf = (step: number): number => bareFigure(step, 3).split('.')[1]?.length ?? 0;

/** A value and what it may be off by: `0.25 ± 0.10`. */
export const plusMinusFigure = (value: number, error: number, decimals: number): string =>
  `${bareFigure(value, decimals)} ± ${fixedFigure(error, decimals)}`;

export const signedPlusMinusFigure = (value: number, error: number, decimals: number): string =>
  `${withPlus(bareFigure(value, decimals))} ± ${fixedFigure(error, decimals)}`;
