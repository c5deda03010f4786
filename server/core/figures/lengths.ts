/** Every length that people read is written here, in the notation of its job; `parseLength` of the wire reads it back. */

import { MM_PER_INCH } from '../units.ts';
import { fixedFigure } from './decimals.ts';
import { asFeetInchesEighths, asFraction, PARTS_OF_INCH } from './inches.ts';
import type { Notation } from './notation.ts';
import { type About, type Exact, isAbout, type Rounding, rounded, stepsOf } from './rounding.ts';

/** Writes a length in the user's own notation, with its unit. */
export type Length = (mm: number, how?: Rounding) => string;

/** For a whole sheet or page. */
export const lengthIn =
  (notation: Notation): Length =>
  (mm, how) =>
    lengthText(mm, notation, how);

/**
 * With its unit: `1234.5 mm`, `48.6 in`, `48 5/8 in` or `4-0-5`: to a tenth of a millimetre, a hundredth of an inch or a thirty-second.
 * What is under a sixteenth of an inch and no whole thirty-second is told in thousandths: it is what is off, or left. So are all decimal inches under one.
 */
export function lengthText(mm: number, notation: Notation, how: Rounding = 'nearest'): string {
  if (isAbout(how)) return withUnit(aboutFigure(mm, notation, how), notation);
  if (isSmall(mm, notation)) return `${rounded(mm / MM_PER_INCH, 3, how)} in`;
  return withUnit(bare(lengthFigure(mm, notation, how)), notation);
}

/** Without its unit, for a column under a head that names it: every figure with as many decimals. */
export function lengthFigure(mm: number, notation: Notation, how: Exact = 'nearest'): string {
  switch (notation) {
    case 'mm':
      return fixedFigure(mm, 1, how);
    case 'decimal inches':
      return fixedFigure(mm / MM_PER_INCH, 2, how);
    default:
      return inParts(stepsOf((mm / MM_PER_INCH) * PARTS_OF_INCH, how), notation);
  }
}

/** A place along the stock, with its unit: to a millimetre, and in inches as every other length. */
export const placeText = (mm: number, notation: Notation): string =>
  withUnit(bare(placeFigure(mm, notation)), notation);

export const placeFigure = (mm: number, notation: Notation): string =>
  notation === 'mm' ? fixedFigure(mm, 0) : lengthFigure(mm, notation);

/** For sentences of one piece: places along it, and sizes across it. */
export interface Lengths {
  along(mm: number): string;
  fine(mm: number): string;
}
export const lengthsFor = (notation: Notation): Lengths => ({
  along: (mm) => placeText(mm, notation),
  fine: (mm) => lengthText(mm, notation),
});

/** What is off, left or moved, with its unit: to a hundredth of a millimetre or a thousandth of an inch where it is small. */
export const fineText = (mm: number, notation: Notation): string =>
  notation === 'mm' ? `${rounded(mm, 2, 'nearest')} mm` : lengthText(mm, notation);

/** The same for a column, signed. */
export function fineFigure(mm: number, notation: Notation): string {
  const figure =
    notation === 'mm'
      ? fixedFigure(mm, 2)
      : notation === 'decimal inches' || isSmall(mm, notation)
        ? fixedFigure(mm / MM_PER_INCH, 3)
        : lengthFigure(mm, notation);
  return mm > 0 && /[1-9]/.test(figure) ? `+${figure}` : figure;
}

export const caliperFigure = (mm: number, notation: Notation): string =>
  notation === 'mm' ? fixedFigure(mm, 2) : fixedFigure(mm / MM_PER_INCH, 3);

/** A radius without its unit: to a millimetre, a tenth of an inch or an eighth; of a far one, three figures. */
export function aboutFigure(mm: number, notation: Notation, how: About = 'about'): string {
  const round = how === 'about' ? 'nearest' : 'at least';
  const size = notation === 'mm' ? mm : mm / MM_PER_INCH;
  const isFar = Math.abs(size) >= (notation === 'mm' ? FAR_MM : FAR_IN);
  const tens = isFar ? 10 ** (Math.floor(Math.log10(Math.abs(size))) - 2) : NEAR_STEP[notation];
  const about = stepsOf(size / tens, round) * tens;
  if (notation === 'mm' || notation === 'decimal inches') return fixedFigure(about, notation === 'mm' || isFar ? 0 : 1);
  return inParts(Math.round(about * PARTS_OF_INCH), notation);
}

/** What stands in the head of a column: nothing where every figure says it itself. */
export const UNIT: Readonly<Record<Notation, string>> = {
  mm: 'mm',
  'decimal inches': 'in',
  'inches and fractions': 'in',
  'feet-inches-eighths': '',
};
/** The same behind the name of a column. */
export const unitInHead = (notation: Notation): string => (UNIT[notation] === '' ? '' : `, ${UNIT[notation]}`);
export const CALIPER_UNIT: Readonly<Record<Notation, string>> = { ...UNIT, 'feet-inches-eighths': 'in' };

/** From here on three figures are told of a radius. */
const FAR_MM = 10_000;
const FAR_IN = 100;
const NEAR_STEP: Readonly<Record<Notation, number>> = {
  mm: 1,
  'decimal inches': 0.1,
  'inches and fractions': 1 / 8,
  'feet-inches-eighths': 1 / 8,
};

/** Under a sixteenth of an inch a thirty-second tells too little, or nothing; under an inch a hundredth of one. */
function isSmall(mm: number, notation: Notation): boolean {
  if (notation === 'mm') return false;
  if (notation === 'decimal inches') return Math.abs(mm) < MM_PER_INCH;
  const parts = (mm / MM_PER_INCH) * PARTS_OF_INCH;
  return Math.abs(parts) < 2 && Math.abs(parts - Math.round(parts)) > 1e-6;
}

const inParts = (parts: number, notation: Notation): string =>
  notation === 'feet-inches-eighths' ? asFeetInchesEighths(parts) : asFraction(parts);

/** In a sentence no noughts are told behind the point. */
const bare = (figure: string): string => (/^-?\d+\.\d+$/.test(figure) ? `${Number(figure)}` : figure);

const withUnit = (figure: string, notation: Notation): string =>
  UNIT[notation] === '' ? figure : `${figure} ${UNIT[notation]}`;
