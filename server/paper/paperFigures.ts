/** Figures as they stand on paper: lengths, feeds and rates as the job writes them, with the true minus. */
import { withTrueMinus } from '../core/figures/decimals.ts';
import { inReadoutDecimals, signedDegFigure } from '../core/figures/degrees.ts';
import { feedText, rateText } from '../core/figures/feeds.ts';
import { lengthFigure, lengthText } from '../core/figures/lengths.ts';
import type { Notation } from '../core/figures/notation.ts';
import type { Plan } from '../core/plan/plan.ts';

/** Without its unit: a table names it once, see `unitInHead`. */
export const figureOf = (mm: number, notation: Notation): string => withTrueMinus(lengthFigure(mm, notation));

/** The same with its unit. */
export const lengthOf = (mm: number, notation: Notation): string => withTrueMinus(lengthText(mm, notation));

/** With the readout's decimals. */
export const callFigure = (deg: number, { readoutDeg }: Plan['saw']): string =>
  withTrueMinus(inReadoutDecimals(deg, readoutDeg));

/** A bevel to a hundredth of a degree, with its sign. */
export const bevelFigure = (deg: number): string => withTrueMinus(signedDegFigure(deg));

/** A length that must not be passed: rounded down to what paper shows. */
export const atMostOf = (mm: number, notation: Notation): string => lengthText(mm, notation, 'at most');

/** A length that is needed: rounded up to what paper shows. */
export const atLeastOf = (mm: number, notation: Notation): string => lengthText(mm, notation, 'at least');

/** How fast a bevel changes along the stock. */
export const rateOf = rateText;

/** A limit of the feed: never told as more than it is. */
export const feedOf = (mPerMin: number, notation: Notation): string => feedText(mPerMin, notation);
