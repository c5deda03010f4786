/** A bevel as a shop writes it, in degrees off square: exact, or a question where it could be read in two ways. */

import type { ProblemCode } from '../../core/errors.ts';
import { bareFigure } from '../../core/figures/decimals.ts';
import { radToDeg } from '../../core/units.ts';
import { isTooFine, WANTED_COARSER } from './magnitude.ts';
import { type BareUnits, readLengthCell } from './parseLength.ts';

/** A plank that leans farther than this off square is no bevel but another joint. */
const BEVEL_BELOW_DEG = 60;

/** What the gauge reads where the faces are square. */
export type Readings = 'off square' | 'about 90';

type BevelReading =
  | { readonly deg: number }
  | { readonly deg?: never; readonly code: ProblemCode; readonly wanted: string };

/**
 * `7.5`, `4°`, `10 1/2`, `4° 30'`, or the rise of the face over a length square to it: `3/16 in 2 in`, `5 mm in 60 mm`. A rise without a unit
 * has that of the length, where the two cannot be taken for anything else. `readings` `about 90`: 94 is 4 standing.
 */
export function readBevel(cell: string, units: BareUnits, readings: Readings = 'off square'): BevelReading {
  const text = tidy(cell);
  const slope = SLOPE.exec(text);
  if (slope !== null) return readSlope(slope, units);
  if (BARE_FRACTION.test(text) && !PARTS_OF_A_DEGREE.has(text.replace(/^[+-]/, '')))
    return {
      code: 'ambiguous-length',
      wanted: `${text.replace(/^\+/, '')} of a degree (write "${text.replace(/^\+/, '')}°"), or a rise over a length, such as "${text.replace(/^\+/, '')} in 2 in"?`,
    };
  const shown = readAngle(text);
  if (shown === undefined) return { code: 'wrong-type', wanted: wantedOf(cell, readings) };
  const deg = readings === 'about 90' ? shown - SQUARE_DEG : shown;
  if (isTooFine(deg)) return { code: 'out-of-range', wanted: WANTED_COARSER };
  if (Math.abs(deg) < BEVEL_BELOW_DEG) return { deg: deg + 0 };
  const other = readings === 'off square' ? shown - SQUARE_DEG : shown;
  return { code: 'out-of-range', wanted: `${wantedOf(cell, readings)}${askedOf(other, readings)}` };
}

const SQUARE_DEG = 90;

export const wantedOf = (cell: string, readings: Readings): string => {
  const what =
    readings === 'off square'
      ? `degrees off square, more than -${BEVEL_BELOW_DEG} and less than ${BEVEL_BELOW_DEG}, standing positive`
      : `what the gauge reads, more than ${SQUARE_DEG - BEVEL_BELOW_DEG} and less than ${SQUARE_DEG + BEVEL_BELOW_DEG}: 90 where the faces are square, more where standing`;
  return /^[+-]?\d*,\d+$/.test(cell)
    ? `${what}, with a decimal point`
    : `${what}${readings === 'off square' ? ', such as 4, 10 1/2 or "3/16 in 2 in"' : ''}`;
};

/** A figure that the other way of reading would take is asked for, never taken. */
function askedOf(otherDeg: number, readings: Readings): string {
  if (!(Math.abs(otherDeg) < BEVEL_BELOW_DEG)) return '';
  return readings === 'off square'
    ? `. Subtract 90? If the gauge reads 90 where the faces are square and more where standing, this is ${bareFigure(otherDeg, 6)}: write that, or in a pick-up "readings": "about 90" in the job's shape`
    : '. Is this one off square already? Then add 90';
}

const FRACTION = String.raw`\d+\/\d+`;
const DECIMAL = String.raw`(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d{1,3})?`;
const ANGLE = new RegExp(
  String.raw`^([+-]?)(?:(${DECIMAL})|(?:(\d+) )?(${FRACTION}))\s*(?:°|degrees?|deg)?(?:(?<=°)\s*(\d{1,2})\s*')?$`,
);

function readAngle(text: string): number | undefined {
  const found = ANGLE.exec(text);
  if (found === null) return undefined;
  const [, sign, decimal, whole, fraction, minutes] = found;
  const [over = Number.NaN, under = Number.NaN] = (fraction ?? '').split('/').map(Number);
  if (fraction !== undefined && (under === 0 || over >= under)) return undefined;
  if (minutes !== undefined && (Number(minutes) > 59 || !/^\d+$/.test(decimal ?? ''))) return undefined;
  const size = decimal === undefined ? Number(whole ?? 0) + over / under : Number(decimal);
  const deg = (size + Number(minutes ?? 0) / 60) * (sign === '-' ? -1 : 1);
  return Number.isFinite(deg) ? deg : undefined;
}

/** A fraction alone may be a rise. Parts of a degree that people write so are taken; of others it is asked. */
const BARE_FRACTION = new RegExp(`^[+-]?${FRACTION}$`);
const PARTS_OF_A_DEGREE = new Set(['1/2', '1/4', '3/4', '1/3', '2/3']);

const SIZE = String.raw`(?:\d+ )?${FRACTION}|${DECIMAL}`;
const UNIT = 'mm|cm|in|inch|inches|"';
const SLOPE = new RegExp(String.raw`^([+-]?)\s*(${SIZE})\s*(${UNIT})?\s*(?:\bin\b|over|per)\s*(${SIZE})\s*(${UNIT})?$`);

/** Derived: a face that rises by so much over a length square to it stands off by the angle whose tangent that is. */
function readSlope(
  [, sign = '', rise = '', riseUnit, run = '', runUnit]: RegExpExecArray,
  units: BareUnits,
): BevelReading {
  const ask = (wanted: string): BevelReading => ({ code: 'ambiguous-length', wanted });
  if (runUnit === undefined)
    return ask(
      `the unit of the length with it, such as "${sign}${rise} in ${run} in" or "${sign}${rise} mm in ${run} mm": mm or in?`,
    );
  const isInches = /^(in|")/.test(runUnit);
  // "5 in 60 mm": 5 mm, or 5 inches?
  if (riseUnit === undefined && !isInches)
    return ask(`the unit of the rise: "${sign}${rise} ${runUnit} in ${run} ${runUnit}"?`);
  const [riseMm, runMm] = [`${rise} ${riseUnit ?? runUnit}`, `${run} ${runUnit}`].map((text) =>
    readLengthCell(text, units),
  );
  if (riseMm?.mm === undefined || runMm?.mm === undefined || runMm.mm <= 0)
    return { code: 'not-a-length', wanted: 'a rise and a length over which it is measured, such as "3/16 in 2 in"' };
  const deg = radToDeg(Math.atan2(riseMm.mm, runMm.mm)) * (sign === '-' ? -1 : 1);
  if (Math.abs(deg) < BEVEL_BELOW_DEG) return { deg: deg + 0 };
  return { code: 'out-of-range', wanted: `a rise that stands less than ${BEVEL_BELOW_DEG}° off square` };
}

/** One spelling for the signs that keyboards and spreadsheets put in. */
const tidy = (written: string): string =>
  written
    .slice(0, 60)
    .replace(/[\u00bc-\u00be\u2150-\u215e]/g, (fraction) => ` ${fraction.normalize('NFKC')}`)
    .replace(/\u2044/g, '/')
    .replace(/[\u2010-\u2015\u2212]/g, '-')
    .replace(/[\u2033\u201d]/g, '"')
    .replace(/[\u2032\u2019]/g, "'")
    .replace(/[\u00ba\u02da]/g, '°')
    .replace(/\s+/g, ' ')
    .trim()
    .replace(/^([+-]) /, '$1')
    .toLowerCase();
