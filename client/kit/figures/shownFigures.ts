/** How figures are written on every page. The minus is the true one, so that it is as wide as a digit's bar. */
import { lengthFigure, lengthText, placeFigure, placeText, UNIT } from '../../../server/core/figures/lengths.ts';
import type { Notation } from '../../../server/core/figures/notation.ts';

const decimals = (step: number): number => Math.min(3, (String(step).split('.')[1] ?? '').length);

/** A readout's figure, with the readout's own decimals: 12.5 on a half-degree readout, 12 on a whole one. */
export function readoutFigure(deg: number, readoutDeg: number): string {
  const shown = Math.round(deg / readoutDeg) * readoutDeg;
  return minus(shown.toFixed(Math.max(1, decimals(readoutDeg))));
}

export const degFigure = (deg: number, places = 2): string => minus(deg.toFixed(places));

/** Takes the sign off a zero and gives every other negative figure the true minus. */
function minus(figure: string): string {
  return Number(figure) === 0 ? figure.replace('-', '') : figure.replace(/^-/, '\u2212');
}

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
  fine: (mm) => minus(lengthFigure(mm, notation)),
  along: (mm) => minus(placeFigure(mm, notation)),
  fineText: (mm) => minus(lengthText(mm, notation)),
  alongText: (mm) => minus(placeText(mm, notation)),
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
