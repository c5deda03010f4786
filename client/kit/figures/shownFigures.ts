/** How figures are written on every page. The minus is the true one, so that it is as wide as a digit's bar. */
import { withTrueMinus } from '../../../server/core/figures/decimals.ts';
import {
  degFigure as plainDegFigure,
  readoutFigure as plainReadoutFigure,
} from '../../../server/core/figures/degrees.ts';
import { lengthFigure, lengthText, placeFigure, placeText, UNIT } from '../../../server/core/figures/lengths.ts';
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
  inHead: UNIT[notation] === '' ? '' : `, ${UNIT[notation]}`,
});

export function span(seconds: number): string {
  const whole = Math.round(seconds);
  const minutes = Math.floor(whole / 60);
  return minutes === 0 ? `${whole} s` : `${minutes} min ${String(whole % 60).padStart(2, '0')} s`;
}

export const clockTime = (atMs: number): string => {
  const at = new Date(atMs);
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${two(at.getHours())}:${two(at.getMinutes())}:${two(at.getSeconds())}`;
};

export const dayAndTime = (atMs: number): string =>
  new Date(atMs).toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' });
