/** How figures are written on every page. The minus is the true one, so that it is as wide as a digit's bar. */
import { withTrueMinus } from '../../../server/core/figures/decimals.ts';
import {
  degFigure as plainDegFigure,
  readoutFigure as plainReadoutFigure,
} from '../../../server/core/figures/degrees.ts';
import { lengthFigure, lengthText, placeFigure, placeText, unitInHead } from '../../../server/core/figures/lengths.ts';
import type { Notation } from '../../../server/core/figures/notation.ts';

/** What the readout shows, with its own decimals. */
export const readoutFigure = (deg: number, readoutDeg: number): string =>
  withTrueMinus(plainReadoutFigure(deg, readoutDeg));

export const degFigure = (deg: number, decimals?: number): string => withTrueMinus(plainDegFigure(deg, decimals));

interface ShownLengths {
  /** A short length without its unit. */
  fine(mm: number): string;
  /** A place along the stock without its unit. */
  along(mm: number): string;
  /** The two with their unit. */
  fineText(mm: number): string;
  alongText(mm: number): string;
  /** Behind the name of a column of lengths. */
  readonly inHead: string;
}

/** Lengths as the job writes them, with the true minus. */
export const lengthsIn = (notation: Notation): ShownLengths => ({
  fine: (mm) => withTrueMinus(lengthFigure(mm, notation)),
  along: (mm) => withTrueMinus(placeFigure(mm, notation)),
  fineText: (mm) => withTrueMinus(lengthText(mm, notation)),
  alongText: (mm) => withTrueMinus(placeText(mm, notation)),
  inHead: unitInHead(notation),
});

export const dayAndTime = (atMs: number): string =>
  new Date(atMs).toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' });
