/** Lengths and figures as they stand on paper: millimetres to a tenth, or feet and inches to the nearest thirty-second. */
import type { Plan } from '../core/plan.ts';
import { MM_PER_INCH } from '../core/units.ts';

const PARTS_OF_INCH = 32;
const MM_PER_FOOT = 12 * MM_PER_INCH;

/** For instance `1234.5`, or `4' 0 19/32"`, without the unit where that is mm: a table names it once. */
export function figureOf(mm: number, units: Plan['units']): string {
  if (units === 'mm') return minus(mm.toFixed(1));
  const parts = Math.round((Math.abs(mm) / MM_PER_INCH) * PARTS_OF_INCH);
  const sign = mm < 0 && parts > 0 ? '−' : '';
  const [feet, rest] = [Math.floor(parts / (12 * PARTS_OF_INCH)), parts % (12 * PARTS_OF_INCH)];
  const [inches, over] = [Math.floor(rest / PARTS_OF_INCH), rest % PARTS_OF_INCH];
  const fraction = fractionOf(over);
  const inchText = fraction === '' ? `${inches}` : inches === 0 ? fraction : `${inches} ${fraction}`;
  return `${sign}${feet > 0 ? `${feet}' ` : ''}${inchText}"`;
}

/** The same with its unit. */
export const lengthOf = (mm: number, units: Plan['units']): string =>
  units === 'mm' ? `${figureOf(mm, units)} mm` : figureOf(mm, units);

function fractionOf(over: number): string {
  if (over === 0) return '';
  let [above, below] = [over, PARTS_OF_INCH];
  while (above % 2 === 0) [above, below] = [above / 2, below / 2];
  return `${above}/${below}`;
}

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
  Number(figure) === 0 ? figure.replace('-', '') : figure.replace('-', '−');

const stepMm = (units: Plan['units']): number => (units === 'mm' ? 0.1 : MM_PER_INCH / PARTS_OF_INCH);

/** A length that must not be passed: rounded down to what paper shows. */
export const atMostOf = (mm: number, units: Plan['units']): string =>
  lengthOf(Math.floor(mm / stepMm(units) + 1e-6) * stepMm(units), units);

/** A length that is needed: rounded up to what paper shows. */
export const atLeastOf = (mm: number, units: Plan['units']): string =>
  lengthOf(Math.ceil(mm / stepMm(units) - 1e-6) * stepMm(units), units);

/** How fast a bevel changes along the stock. */
export const rateOf = (degPerM: number, units: Plan['units']): string =>
  units === 'mm' ? `${degPerM.toFixed(1)}° a metre` : `${((degPerM * MM_PER_FOOT) / 1000).toFixed(2)}° a foot`;

/** A feed in the user's units; a limit is never told as more than it is. */
export const feedOf = (mPerMin: number, units: Plan['units']): string =>
  units === 'mm' ? `${down(mPerMin)} m/min` : `${down(mPerMin / 0.3048)} ft/min`;
const down = (rate: number): string => (Math.floor(rate * 100 + 1e-6) / 100).toFixed(2);
