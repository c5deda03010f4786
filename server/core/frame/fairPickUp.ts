import type { PickUp, PickUpRow } from '../job.ts';
import { crossValidated, smoothingRange } from '../numeric/crossValidated.ts';
import type { Curve } from '../numeric/cubicCurve.ts';
import { outlyingRows, type Rows, type Standing } from '../numeric/outlyingRows.ts';
import { smoothingSpline } from '../numeric/smoothingSpline.ts';
import type { Suspect } from '../plan.ts';
import { slipOf } from './slip.ts';

/** Fewer rows than this cannot tell measuring error from shape (measured: see crossValidated.ts), so the curve follows them. */
const FEWEST_TO_FAIR = 8;

export interface FairBevels {
  /** The fair bevel; beyond the rows it is carried on straight. */
  bevelAtDeg(girthMm: number): number;
  slopeAtDegPerMm(girthMm: number): number;
  /** How far the rows that were kept stand off the fair curve. */
  readonly rmsDeg: number;
  /** The rows that were left out, in the order of the pick-up. */
  readonly suspects: readonly Suspect[];
  /** `row` is counted from the first data row = 1. */
  isSuspect(row: number): boolean;
  readonly fromGirthMm: number;
  readonly toGirthMm: number;
}

/**
 * Takes the measuring error out of bevels picked up on the boat: a natural cubic smoothing spline, its smoothing chosen by
 * cross-validation. Rows that stand off the others by clearly more than `errorDeg` are named and left out.
 * Girths in mm, bevels in degrees. Throws where the rows do not rise, are fewer than 2 or have a weight that is not positive.
 * Sources: smoothingSpline.ts, crossValidated.ts, outlyingRows.ts.
 */
export function fairPickUp(pickUp: PickUp): FairBevels {
  const rows = rowsOf(pickUp.rows);
  const left = outlyingRows(rows, pickUp.errorDeg);
  const kept = pickUp.rows.filter((_, i) => !left.has(i));
  const curve = fairCurve(rowsOf(kept));
  const suspects = pickUp.rows.flatMap((row, i) => {
    const standing = left.get(i);
    return standing === undefined ? [] : [suspect(i, row, curve.valueAt(row.girthMm), standing)];
  });
  const squares = kept.map((row) => (row.bevelDeg - curve.valueAt(row.girthMm)) ** 2);
  return {
    bevelAtDeg: curve.valueAt,
    slopeAtDegPerMm: curve.slopeAt,
    rmsDeg: Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / kept.length),
    suspects,
    isSuspect: (row) => left.has(row - 1),
    fromGirthMm: pickUp.rows[0]?.girthMm ?? 0,
    toGirthMm: pickUp.rows.at(-1)?.girthMm ?? 0,
  };
}

function fairCurve(rows: Rows): Curve {
  const fitAt = smoothingSpline(rows);
  const range = smoothingRange(rows.x, rows.weight);
  const fit = rows.x.length < FEWEST_TO_FAIR ? fitAt(range.closest) : crossValidated(fitAt, rows.x.length, range);
  return fit.curve;
}

/** Weights count against each other only: the middle one is taken as 1, so that `errorDeg` is said of an ordinary row. */
function rowsOf(rows: readonly PickUpRow[]): Rows {
  const weights = rows.map((row) => row.weight).sort((a, b) => a - b);
  const middle = weights[weights.length >> 1] ?? 1;
  return {
    x: rows.map((row) => row.girthMm),
    y: rows.map((row) => row.bevelDeg),
    weight: rows.map((row) => row.weight / middle),
  };
}

function suspect(index: number, row: PickUpRow, fairDeg: number, { allowed }: Standing): Suspect {
  const offDeg = row.bevelDeg - fairDeg;
  const size = Math.abs(offDeg);
  const slip = slipOf(row.bevelDeg, fairDeg, Math.min(allowed, size / 2));
  const where = `stands ${size.toFixed(1)} degrees ${offDeg > 0 ? 'above' : 'below'} its neighbours`;
  const reason = slip === undefined ? `${where}; measure it again` : `${where}; perhaps ${slip}`;
  return { row: index + 1, girthMm: row.girthMm, foundDeg: row.bevelDeg, fairDeg, reason };
}
