/** Figures as they stand on paper: lengths, feeds and rates as the job writes them, with the true minus. */
import { feedText, rateText } from '../core/figures/feeds.ts';
import { lengthFigure, lengthText, UNIT } from '../core/figures/lengths.ts';
import type { Notation } from '../core/figures/notation.ts';
import type { Plan } from '../core/plan/plan.ts';

/** Without its unit: a table names it once, see `inHead`. */
export const figureOf = (mm: number, notation: Notation): string => minus(lengthFigure(mm, notation));

/** The same with its unit. */
export const lengthOf = (mm: number, notation: Notation): string => minus(lengthText(mm, notation));

/** What stands behind the name of a column of lengths. */
export const inHead = (notation: Notation): string => (UNIT[notation] === '' ? '' : `, ${UNIT[notation]}`);

/** What the readout shows: as many places as its step has, at least one. */
export function callFigure(deg: number, { readoutDeg }: Plan['saw']): string {
  const places = (Number(readoutDeg.toFixed(3)).toString().split('.')[1] ?? '').length;
  return minus(deg.toFixed(Math.max(1, places)));
}

/** A bevel to a hundredth of a degree, with its sign. */
export function bevelFigure(deg: number): string {
  const figure = minus(deg.toFixed(2));
  return Number(deg.toFixed(2)) > 0 ? `+${figure}` : figure;
}

/** No sign at a nought, and the true minus, which is as wide as a digit. */
export const minus = (figure: string): string =>
  Number(figure) === 0 ? figure.replace('-', '') : figure.replace(/^-/, '−');

/** A length that must not be passed: rounded down to what paper shows. */
export const atMostOf = (mm: number, notation: Notation): string => lengthText(mm, notation, 'at most');

/** A length that is needed: rounded up to what paper shows. */
export const atLeastOf = (mm: number, notation: Notation): string => lengthText(mm, notation, 'at least');

/** How fast a bevel changes along the stock. */
export const rateOf = rateText;

/** A limit of the feed: never told as more than it is. */
export const feedOf = (mPerMin: number, notation: Notation): string => feedText(mPerMin, notation);
