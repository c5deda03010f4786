/**
 * The cut through the stock, which stands on the saw's table against a fence.
 *
 * Seen square to the feed: `h` is the height above the table (the stock's lower side 0, its upper side the siding) and `r` the
 * distance from the reference face, the face on the side away from which the blade's top leans at positive tilt. The tilt axis
 * stands at height `p` over the table and does not move while the blade tilts, so at the tilt b the middle of the kerf lies at
 *     r(h) = r0 + (h - p) tan b,
 * one and the same r0 from end to end of the stock. A kerf k wide, measured square to the blade, is k / cos b wide across the
 * stock, half of it on either side of the line.
 */
import { cosDeg, tanDeg } from '../units.ts';

/** The thinnest edge that a wedge is given; thinner ones crumble at the blade. Common practice, no source. */
export const THINNEST_EDGE_MM = 3;

export interface Cut {
  /** How high the blade cuts: the siding. */
  readonly sidingMm: number;
  readonly kerfMm: number;
  readonly pivotHeightMm: number;
  /** Distance of the tilt axis from the reference face (r0). */
  readonly lineAtPivotMm: number;
  /** Thickness of the dressed stock. */
  readonly thicknessMm: number;
}

/** What a kerf at this tilt takes from the half on either side of the line, in mm across the stock. */
export const halfKerfMm = (kerfMm: number, tiltDeg: number): number => kerfMm / (2 * cosDeg(tiltDeg));

/**
 * The fence and the thinnest stock for which no edge of either half is thinner than `THINNEST_EDGE_MM` at any of the tilts
 * (degrees, positive as the saw's). For tilts from 0 to b and the axis on the table that is T = 2a + s tan b + k / cos b.
 */
export function layCut(
  saw: { readonly kerfMm: number; readonly pivotHeightMm: number },
  sidingMm: number,
  tiltsDeg: Iterable<number>,
): Cut {
  const { kerfMm, pivotHeightMm } = saw;
  let lineAtPivotMm = Number.NEGATIVE_INFINITY;
  let beyondLineMm = Number.NEGATIVE_INFINITY;
  for (const tiltDeg of tiltsDeg) {
    const spareMm = THINNEST_EDGE_MM + halfKerfMm(kerfMm, tiltDeg);
    const awayMm = [-pivotHeightMm, sidingMm - pivotHeightMm].map((heightMm) => heightMm * tanDeg(tiltDeg));
    lineAtPivotMm = Math.max(lineAtPivotMm, spareMm - Math.min(...awayMm));
    beyondLineMm = Math.max(beyondLineMm, spareMm + Math.max(...awayMm));
  }
  return { sidingMm, kerfMm, pivotHeightMm, lineAtPivotMm, thicknessMm: lineAtPivotMm + beyondLineMm };
}

/** Where the middle of the kerf lies on the stock's upper and lower side, in mm from the reference face. */
export function lineOf(cut: Cut, tiltDeg: number): { readonly topMm: number; readonly bottomMm: number } {
  const at = (heightMm: number) => cut.lineAtPivotMm + (heightMm - cut.pivotHeightMm) * tanDeg(tiltDeg);
  return { topMm: at(cut.sidingMm), bottomMm: at(0) };
}
