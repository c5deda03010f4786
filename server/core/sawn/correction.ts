/**
 * What a measured trial tells: how the readout is off, and how late the hand was, each with its error.
 *
 * At a place x the trial has the bevel b(x), where w(x) was wanted. A hand that is late by the length d of stock, and a readout
 * that is off by p + q w, leave
 *     b(x) = w(x - d) + p + q w(x - d)   or, to first order,   b - w = -d w' + p + q w.
 * The three figures are found by weighted least squares (Gauss and Newton, w and w' taken at x - d), and their errors from the
 * rows' scatter or the measuring error, whichever is more (derived; the usual covariance of a linear fit, e.g. Bevington, Data
 * Reduction, ch. 7, from memory). What is not clearly more than its error (twice) is not told; but lateness and offset stay in the fit
 * together, so that the error of either holds whatever the other may be. Only the slope q is left out where it is not clear.
 */

import { rounded } from '../figures/rounding.ts';
import { fitted } from '../numeric/leastSquares.ts';
import { rowAt } from '../rowAt.ts';
import { type ReadoutTable, shownDeg } from '../saw/readout.ts';
import type { PieceRow } from './bestShift.ts';

export interface TrialEstimate {
  readonly value: number;
  /** One standard deviation. */
  readonly error: number;
}

export interface TrialCorrection {
  /** How far behind its place the bevel came, mm of stock; negative: early. Null: not told apart from nothing. */
  readonly late: TrialEstimate | null;
  /** What the tilt came out as more than was called for, at the least and the greatest tilt that was measured; null: nothing clear. */
  readonly off: readonly { readonly tiltDeg: number; readonly deg: TrialEstimate }[] | null;
  /** For `saw.readoutTable`: [readout shown, true tilt]. Empty where nothing clear was found. */
  readonly rows: readonly (readonly [number, number])[];
  /**
   * The bevels came out off by so much in the mean, and neither of the two is clear by itself: over this stretch a late hand and
   * a readout that is off look alike. Null where that is not so.
   */
  readonly either: TrialEstimate | null;
  /** What stays unexplained, root mean square. */
  readonly leftDeg: number;
  readonly measured: number;
  /** The least that would have been noticed (two standard deviations): lateness in mm, tilt in degrees. */
  readonly noticeable: { readonly mm: number | null; readonly deg: number };
}

interface TrialMeasured {
  readonly rows: readonly PieceRow[];
  /** Wanted along the trial, and between which ends. */
  readonly wantedDeg: (alongMm: number) => number;
  readonly fromMm: number;
  readonly toMm: number;
  readonly hand: 1 | -1;
  readonly readoutTable: ReadoutTable;
  readonly errorDeg: number;
}

type Term = 'late' | 'offset' | 'slope';
/** A place at the first or last mark's line may be written a little beyond it. */
const AT_THE_LINE_MM = 5;
const CLEARLY = 2;
const PASSES = 8;
const SLOPE_OVER_MM = 10;

/** Undefined where fewer than three rows lie on the trial. */
export function correctionOf(asked: TrialMeasured): TrialCorrection | undefined {
  const rows = asked.rows.filter(
    ({ alongMm }) => alongMm >= asked.fromMm - AT_THE_LINE_MM && alongMm <= asked.toMm + AT_THE_LINE_MM,
  );
  if (rows.length < 3) return undefined;
  const three = fitTerms(asked, rows, rows.length > 3 ? ['late', 'offset', 'slope'] : ['late', 'offset']);
  const hasSlope = isClear(three.value('slope'));
  const terms: readonly Term[] = hasSlope ? ['late', 'offset', 'slope'] : ['late', 'offset'];
  const fit = hasSlope ? three : fitTerms(asked, rows, ['late', 'offset']);
  const late = fit.value('late');
  const tilts = rows.map(({ alongMm }) => asked.hand * asked.wantedDeg(alongMm));
  const off = [Math.min(...tilts), Math.max(...tilts)].map((tiltDeg) => ({
    tiltDeg,
    deg: offAt(fit, terms, asked.hand * tiltDeg, asked.hand),
  }));
  const isLate = isClear(late);
  const isOff = off.some(({ deg }) => isClear(deg));
  const mean = fitTerms(asked, rows, ['offset']).value('offset');
  return {
    late: isLate ? late : null,
    off: isOff ? off : null,
    rows: isOff ? off.map(({ tiltDeg, deg }) => rowOf(tiltDeg, deg, asked.readoutTable)) : [],
    either: !isLate && !isOff && mean !== null && isClear(mean) ? { ...mean, value: asked.hand * mean.value } : null,
    leftDeg: fit.leftDeg,
    measured: rows.length,
    noticeable: { mm: noticed(late), deg: Math.min(...off.map(({ deg }) => CLEARLY * deg.error)) },
  };
}

const isClear = (found: TrialEstimate | null): boolean =>
  found !== null && Math.abs(found.value) > CLEARLY * found.error;

const rowOf = (tiltDeg: number, deg: TrialEstimate, table: ReadoutTable): readonly [number, number] => [
  rounded(shownDeg(tiltDeg, table), 2, 'nearest'),
  rounded(tiltDeg + deg.value, 2, 'nearest'),
];

const noticed = (late: TrialEstimate | null): number | null =>
  late === null || !Number.isFinite(late.error) ? null : CLEARLY * late.error;

interface Fit {
  readonly leftDeg: number;
  value(term: Term): TrialEstimate | null;
  covariance(a: Term, b: Term): number;
}

function fitTerms(asked: TrialMeasured, rows: readonly PieceRow[], terms: readonly Term[]): Fit {
  const { wantedDeg, errorDeg } = asked;
  const mean = rows.reduce((sum, { weight }) => sum + weight, 0) / rows.length;
  let lateMm = 0;
  let found = { values: [] as readonly number[], covariance: [] as readonly (readonly number[])[], leftSquares: 0 };
  for (let pass = 0; pass < PASSES; pass += 1) {
    const design = rows.map(({ alongMm }) => {
      const at = alongMm - lateMm;
      const slope = (wantedDeg(at + SLOPE_OVER_MM / 2) - wantedDeg(at - SLOPE_OVER_MM / 2)) / SLOPE_OVER_MM;
      return terms.map((term) => (term === 'late' ? -slope : term === 'offset' ? 1 : wantedDeg(at)));
    });
    // Against the place where it is taken to have come by now; the rest of the lateness is what is fitted.
    const left = rows.map(({ alongMm, bevelDeg }) => bevelDeg - wantedDeg(alongMm - lateMm));
    found = fitted(
      design,
      left,
      rows.map(({ weight }) => weight / mean),
    );
    const more = terms.indexOf('late') === -1 ? 0 : rowAt(found.values, terms.indexOf('late'));
    if (!Number.isFinite(more) || Math.abs(more) < 1e-6) break;
    lateMm += Math.max(-MOST_STEP_MM, Math.min(MOST_STEP_MM, more));
  }
  const spare = Math.max(1, rows.length - terms.length);
  const sigma = Math.max(errorDeg, Math.sqrt(found.leftSquares / spare));
  const covariance = (a: Term, b: Term): number =>
    sigma ** 2 * (found.covariance[terms.indexOf(a)]?.[terms.indexOf(b)] ?? 0);
  return {
    leftDeg: Math.sqrt(found.leftSquares / rows.length),
    covariance,
    value(term) {
      const index = terms.indexOf(term);
      if (index === -1) return null;
      const value = term === 'late' ? lateMm : rowAt(found.values, index);
      return { value, error: Math.sqrt(covariance(term, term)) };
    },
  };
}

const MOST_STEP_MM = 100;

/** In the saw's own sense: more tilt is positive. */
function offAt(fit: Fit, terms: readonly Term[], bevelDeg: number, hand: 1 | -1): TrialEstimate {
  const has = (term: Term): number => (terms.includes(term) ? 1 : 0);
  const value = (fit.value('offset')?.value ?? 0) + (fit.value('slope')?.value ?? 0) * bevelDeg;
  const variance =
    has('offset') * fit.covariance('offset', 'offset') +
    2 * has('offset') * has('slope') * bevelDeg * fit.covariance('offset', 'slope') +
    has('slope') * bevelDeg ** 2 * fit.covariance('slope', 'slope');
  return { value: hand * value + 0, error: Math.sqrt(Math.max(0, variance)) };
}
