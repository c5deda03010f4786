/** Every feed that people read, and how fast a bevel changes along the stock: by the metre or by the foot, as the job has its lengths. */
import { bareFigure, fixedFigure } from './decimals.ts';
import type { Notation } from './notation.ts';
import { roundedDown } from './rounding.ts';

const M_PER_FOOT = 0.3048;

export const feedUnit = (notation: Notation): 'm/min' | 'ft/min' => (notation === 'mm' ? 'm/min' : 'ft/min');

/** A feed as somebody typed it, in metres a minute. */
export const typedFeedMPerMin = (figure: number, notation: Notation): number =>
  notation === 'mm' ? figure : figure * M_PER_FOOT;

/** The next feed down that is typed without decimals of no use: a tenth of a metre, or half a foot. */
export function slowerFeedMPerMin(mPerMin: number, notation: Notation): number {
  const stepMPerMin = notation === 'mm' ? 0.1 : M_PER_FOOT / 2;
  return Math.max(stepMPerMin, Math.floor(mPerMin / stepMPerMin + 1e-9) * stepMPerMin);
}

/** With its unit. A limit is never told as more than it is, which is the way of all feeds unless `nearest` is asked for. */
export const feedText = (mPerMin: number, notation: Notation, how: 'at most' | 'nearest' = 'at most'): string =>
  `${feedFigure(mPerMin, notation, how)} ${feedUnit(notation)}`;

export function feedFigure(mPerMin: number, notation: Notation, how: 'at most' | 'nearest' = 'at most'): string {
  const size = notation === 'mm' ? mPerMin : mPerMin / M_PER_FOOT;
  return `${how === 'at most' && size > 0 ? roundedDown(size) : bareFigure(size, 2)}`;
}

/** A feed that is going on: to a tenth, so that the figure stands still. */
export const feedNowText = (mPerMin: number, notation: Notation): string =>
  `${fixedFigure(notation === 'mm' ? mPerMin : mPerMin / M_PER_FOOT, 1)} ${feedUnit(notation)}`;

export const rateUnit = (notation: Notation): 'a metre' | 'a foot' => (notation === 'mm' ? 'a metre' : 'a foot');

/** How fast a bevel changes, without its unit. */
export const rateFigure = (degPerM: number, notation: Notation): string =>
  notation === 'mm' ? fixedFigure(degPerM, 1) : fixedFigure(degPerM * M_PER_FOOT, 2);

export const rateText = (degPerM: number, notation: Notation): string =>
  `${rateFigure(degPerM, notation)}° ${rateUnit(notation)}`;
