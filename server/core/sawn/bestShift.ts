/**
 * How far a sawn piece must be shifted lengthwise so that its bevels come nearest to the frame's: least squares over the rows that
 * then lie on the frame, and how well that is known.
 *
 * A shift d lays the place x of the piece on the place x + d of the stock as planned. Its error follows from the rows' own, sigma,
 * as in any least-squares fit of one figure: sigma / sqrt(sum of w (db/dx)^2) (derived; Bevington, Data Reduction, ch. 8, from
 * memory): where the frame's bevel does not change, no shift is better than another.
 */

import { goldenSection } from '../numeric/goldenSection.ts';
import { lastRow, rowAt } from '../rowAt.ts';
import type { WantedEdges } from './wantedEdges.ts';

export interface PieceRow {
  /** Along the piece, heelward to headward, from any zero; planned: from mark 1's line. */
  readonly alongMm: number;
  /** Of the sawn face off square, signed as the frame's. */
  readonly bevelDeg: number;
  readonly weight: number;
  /** Thickness of the thinner edge there, where it was measured. */
  readonly thinMm?: number;
}

/** How the piece is taken: as it was sawn, or as if something had gone wrong with it. */
export type Taking = 'as sawn' | 'end for end' | 'mirrored' | 'reversed';

export interface Match {
  readonly shiftMm: number;
  readonly rmsDeg: number;
  /** One standard deviation of the shift, by the rows' scatter or `errorDeg`, whichever is more. Infinite: nothing tells it. */
  readonly shiftSdMm: number;
}

/** Of a piece's rows so many by weight must lie on the frame, or the shift is no match of the two (assumption). */
const LEAST_SHARE = 0.5;
const STEP_MM = 2;
const MOST_STEPS = 2000;
const WITHIN_MM = 0.05;

/** Null where the piece is too short for any shift in the range. */
export function bestMatch(
  rows: readonly PieceRow[],
  asked: WantedEdges,
  range: { readonly fromMm: number; readonly toMm: number },
  errorDeg: number,
): Match | null {
  if (!(range.toMm >= range.fromMm)) return null;
  const off = (shiftMm: number): number => meanSquare(rows, asked, shiftMm);
  const places = placesOver(range.fromMm, range.toMm);
  const best = places.reduce((a, b) => (off(b) < off(a) ? b : a));
  if (!Number.isFinite(off(best))) return null;
  const step = (places[1] ?? best) - (places[0] ?? best);
  const from = Math.max(range.fromMm, best - step);
  const to = Math.min(range.toMm, best + step);
  const refined = to > from ? goldenSection(off, from, to, WITHIN_MM) : best;
  const shiftMm = off(refined) <= off(best) ? refined : best;
  const rmsDeg = Math.sqrt(off(shiftMm));
  return { shiftMm, rmsDeg, shiftSdMm: Math.max(errorDeg, rmsDeg) / Math.sqrt(known(rows, asked, shiftMm)) };
}

export function placesOver(fromMm: number, toMm: number): readonly number[] {
  const steps = Math.max(1, Math.min(MOST_STEPS, Math.ceil((toMm - fromMm) / STEP_MM)));
  return Array.from({ length: steps + 1 }, (_, i) => fromMm + ((toMm - fromMm) * i) / steps);
}

function meanSquare(rows: readonly PieceRow[], { bevelDeg, heelMm, headMm }: WantedEdges, shiftMm: number): number {
  let [sum, weights, all] = [0, 0, 0];
  for (const row of rows) {
    all += row.weight;
    const at = row.alongMm + shiftMm;
    if (at < heelMm || at > headMm) continue;
    sum += row.weight * (row.bevelDeg - bevelDeg(at)) ** 2;
    weights += row.weight;
  }
  return weights >= LEAST_SHARE * all && weights > 0 ? sum / weights : Number.POSITIVE_INFINITY;
}

const SLOPE_OVER_MM = 20;

/** The sum of the squared slopes, rows of middling weight counted as one. */
function known(rows: readonly PieceRow[], { bevelDeg, heelMm, headMm }: WantedEdges, shiftMm: number): number {
  const on = rows.filter(({ alongMm }) => alongMm + shiftMm >= heelMm && alongMm + shiftMm <= headMm);
  const mean = on.reduce((sum, { weight }) => sum + weight, 0) / Math.max(1, on.length);
  return on.reduce((sum, { alongMm, weight }) => {
    const at = alongMm + shiftMm;
    const slope = (bevelDeg(at + SLOPE_OVER_MM / 2) - bevelDeg(at - SLOPE_OVER_MM / 2)) / SLOPE_OVER_MM;
    return sum + (weight / mean) * slope * slope;
  }, 0);
}

/** The same rows in the piece's order as if it had been taken otherwise; places then count from the other end, and rise. */
export function taken(rows: readonly PieceRow[], taking: Taking): readonly PieceRow[] {
  const mirrored = taking === 'mirrored' || taking === 'end for end';
  const turned = taking === 'reversed' || taking === 'end for end';
  const sum = rowAt(rows, 0).alongMm + lastRow(rows).alongMm;
  const ordered = turned ? rows.toReversed() : rows;
  return ordered.map((row) => ({
    ...row,
    alongMm: turned ? sum - row.alongMm : row.alongMm,
    bevelDeg: (mirrored ? -row.bevelDeg : row.bevelDeg) + 0,
  }));
}
