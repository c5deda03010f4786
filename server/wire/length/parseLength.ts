/** Lengths as a shop writes them, in millimetres. */

import type { ProblemCode, ProblemPlace, Result } from '../../core/errors.ts';
import { ok, refused } from '../../core/errors.ts';
import { type Notation, unitsOf } from '../../core/figures/notation.ts';
import { rounded } from '../../core/figures/rounding.ts';
import { MM_PER_INCH } from '../../core/units.ts';
import { showFound } from '../problem/showFound.ts';
import { isTooFine, WANTED_COARSER } from './magnitude.ts';

export type Units = 'mm' | 'in';
/** What bare numbers count in; `unsaid` where the job says mm and its lengths are written in inches, or the other way round: they are asked. */
export type BareUnits = Units | 'unsaid';

/** For what is typed beside a job: its tables of measured pieces, its ends, its lists of places. */
export const bareUnitsOf = ({ units, notation }: { readonly units: Units; readonly notation: Notation }): BareUnits =>
  unitsOf(notation) === units ? units : 'unsaid';

/** Longer than any plank or frame; a length beyond it is a slip of the pen. */
const LONGEST_MM = 100_000;

/** A length that was understood, or what is wrong with it. */
export type LengthReading =
  | { readonly mm: number }
  | { readonly mm?: never; readonly code: ProblemCode; readonly wanted: string };

/**
 * A length of the job file, in mm: a bare number counts in `units`; a string carries its own unit ("60 mm", "2 3/8 in",
 * "1 ft 2 in") or is feet-inches-eighths ("2-3-4+"). `at` is the place that a problem names.
 */
export function parseLength(given: unknown, units: Units, at: ProblemPlace = {}): Result<number> {
  const reading = readLength(given, units);
  return reading.mm === undefined
    ? refused([{ code: reading.code, at, found: showFound(given), wanted: reading.wanted }])
    : ok(reading.mm);
}

/** The same without a place, for those who keep their own list of problems. */
export function readLength(given: unknown, units: BareUnits): LengthReading {
  if (typeof given === 'number') return units === 'unsaid' ? askUnit(`${given}`) : withinReach(toMm(given, units));
  if (typeof given !== 'string') return { code: 'wrong-type', wanted: examples(units) };
  const text = tidy(given);
  // JSON has no fractions, so that one in quotation marks is as bare as a number without.
  if (text.includes('/') && BARE.test(text)) return readLengthCell(text, units);
  if (BARE.test(text))
    return units === 'unsaid'
      ? askUnit(text)
      : {
          code: 'not-a-length',
          wanted: `a number without quotation marks (counted in ${units}), or one with its unit, such as "${text} ${units}"`,
        };
  return readWritten(text, units);
}

/** A length in the cell of a table: as in the job file, but a bare number (or, in inches, a fraction) counts in `units`. */
export function readLengthCell(cell: string, units: BareUnits): LengthReading {
  const text = tidy(cell);
  const bare = BARE.exec(text);
  if (bare === null) return readWritten(text, units);
  if (units === 'unsaid' || (units === 'mm' && text.includes('/'))) return askUnit(text);
  return readQuantity(bare[1], bare[2], units);
}

const QUANTITY = String.raw`\d+(?:\s+|-)\d+\/\d+|\d+\/\d+|(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d{1,3})?`;
const INCH = 'in|inch|inches|"';
const FOOT = "ft|foot|feet|'";
const BARE = new RegExp(String.raw`^([+-]?)\s*(${QUANTITY})$`);
const ONE_UNIT = new RegExp(String.raw`^([+-]?)\s*(${QUANTITY})\s*(mm|cm|m|${INCH}|${FOOT})$`);
const FEET_AND_INCHES = new RegExp(String.raw`^([+-]?)\s*(${QUANTITY})\s*(?:${FOOT})\s*(${QUANTITY})\s*(?:${INCH})$`);
const FEET_INCHES_EIGHTHS = /^(-?)(\d{1,4})-(\d{1,3})-(\d{1,3})([+-]*)$/;

const MM_PER_FOOT = 12 * MM_PER_INCH;
const MM_PER = new Map([
  ['mm', 1],
  ['cm', 10],
  ['m', 1000],
  ...['in', 'inch', 'inches', '"'].map((name) => [name, MM_PER_INCH] as const),
  ...['ft', 'foot', 'feet', "'"].map((name) => [name, MM_PER_FOOT] as const),
]);

/** Thirty-seconds of an inch that the signs after the eighths add; source: the published notation, see the outside tests. */
const THIRTY_SECONDS = new Map([
  ['', 0],
  ['+-', 1],
  ['+', 2],
  ['++', 3],
]);

const askUnit = (text: string): LengthReading => ({
  code: 'ambiguous-length',
  wanted: `mm or in? Write the unit with it, "${text} in" or "${text} mm"`,
});

const examples = (units: BareUnits): string =>
  units === 'mm' ? 'a length such as 60, "60 mm" or "2 3/8 in"' : 'a length such as 2.375, "2 3/8 in" or "0-2-3"';

function readWritten(text: string, units: BareUnits): LengthReading {
  const traditional = FEET_INCHES_EIGHTHS.exec(text);
  if (traditional !== null) return readTraditional(traditional);
  const both = FEET_AND_INCHES.exec(text);
  if (both !== null) {
    const feet = readQuantity('', both[2], 'ft');
    const inches = readQuantity('', both[3], 'in');
    if (feet.mm === undefined) return feet;
    if (inches.mm === undefined) return inches;
    return withinReach((feet.mm + inches.mm) * signOf(both[1]));
  }
  const one = ONE_UNIT.exec(text);
  if (one !== null) return readQuantity(one[1], one[2], one[3] ?? units);
  if (/^[\d\s.]*\d,\d/.test(text))
    return { code: 'not-a-length', wanted: 'a decimal point and no comma, such as "12.5 mm" or "1200 mm"' };
  return { code: 'not-a-length', wanted: examples(units) };
}

function readTraditional(written: RegExpExecArray): LengthReading {
  const [, sign, feet, inches, eighths, signs = ''] = written;
  const thirtySeconds = THIRTY_SECONDS.get(signs);
  if (thirtySeconds === undefined)
    return {
      code: 'ambiguous-length',
      wanted:
        'nothing after the eighths, or "+" (1/16 in more), "+-" (1/32 in more) or "++" (3/32 in more): any other sign is read in more than one way',
    };
  if (Number(inches) > 11 || Number(eighths) > 7)
    return { code: 'out-of-range', wanted: 'feet-inches-eighths with inches from 0 to 11 and eighths from 0 to 7' };
  const inInches = Number(feet) * 12 + Number(inches) + Number(eighths) / 8 + thirtySeconds / 32;
  return withinReach(toMm(inInches, 'in') * signOf(sign));
}

function readQuantity(sign: string | undefined, quantity = '', unit = 'mm'): LengthReading {
  const fraction = /^(?:(\d+)(?:\s+|-))?(\d+)\/(\d+)$/.exec(quantity);
  let size = Number(quantity);
  if (fraction !== null) {
    const [over, under] = [Number(fraction[2]), Number(fraction[3])];
    if (under === 0 || (fraction[1] !== undefined && over >= under))
      return { code: 'not-a-length', wanted: 'a proper fraction, such as "2 3/8 in"' };
    size = Number(fraction[1] ?? 0) + over / under;
  }
  return withinReach(toMm(size, unit) * signOf(sign));
}

const signOf = (sign: string | undefined): 1 | -1 => (sign === '-' ? -1 : 1);

/** Rounded to a millionth of a micrometre where units change, so that 2 3/8 in is 60.325 and not 60.324999999999996. */
function toMm(size: number, unit: string): number {
  const mmPerUnit = MM_PER.get(unit) ?? 1;
  return mmPerUnit === 1 ? size : rounded(size * mmPerUnit, 9, 'nearest');
}

function withinReach(mm: number): LengthReading {
  if (isTooFine(mm)) return { code: 'out-of-range', wanted: WANTED_COARSER };
  if (Math.abs(mm) <= LONGEST_MM) return { mm: mm === 0 ? 0 : mm };
  return Number.isNaN(mm)
    ? { code: 'not-a-length', wanted: 'a finite number' }
    : { code: 'out-of-range', wanted: `a length of at most ${LONGEST_MM / 1000} m (328 ft)` };
}

/** One spelling for the signs that keyboards and spreadsheets put in: minus, primes, fraction characters, hard spaces. */
function tidy(written: string): string {
  if (written.length > 60) return '';
  return written
    .replace(/[\u00bc-\u00be\u2150-\u215e]/g, (fraction) => ` ${fraction.normalize('NFKC')}`)
    .replace(/\u2044/g, '/')
    .replace(/[\u2010-\u2015\u2212]/g, '-')
    .replace(/[\u2033\u201d]/g, '"')
    .replace(/[\u2032\u2019]/g, "'")
    .replace(/\s+/g, ' ')
    .trim()
    .toLowerCase();
}
