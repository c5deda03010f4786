/**
 * The cut through the stock, which stands on the saw's table with its siding upright.
 *
 * Seen square to the feed: `h` is the height above the table (the stock's lower side 0, its upper side the siding) and `r` the
 * distance from the reference face, the face on the side away from which the blade's top leans at positive tilt. At one height q
 * the cut runs straight from end to end of the stock, so at the tilt b the middle of the kerf lies at
 *     r(h) = r0 + (h - q) tan b.
 * Fed along a fence, the stock does not move sideways and the tilt axis stands still at its height p over the table: q = p. Fed
 * along a line, the sawyer moves the stock under the axis by (p - q) tan b, and q is at the height that is chosen.
 * A kerf k wide, measured square to the blade, is k / cos b wide across the stock, half of it on either side of the line: it makes
 * both wedges thinner and leaves the bevel as it is.
 */

import { RIP_DEFAULTS } from '../saw/sawDefaults.ts';
import { cosDeg, tanDeg } from '../units.ts';

export interface Cut {
  /** How high the blade cuts: the siding. */
  readonly sidingMm: number;
  readonly kerfMm: number;
  /** Height above the table at which the cut runs straight along the stock (q). */
  readonly straightAtMm: number;
  /** Its distance from the reference face there (r0). */
  readonly lineMm: number;
  /** Thickness of the dressed stock. */
  readonly thicknessMm: number;
}

interface CutAsked {
  readonly kerfMm: number;
  readonly straightAtMm: number;
  readonly thinnestEdgeMm?: number;
}

/** What a kerf at this tilt takes from the half on either side of the line, in mm across the stock. */
export const halfKerfMm = (kerfMm: number, tiltDeg: number): number => kerfMm / (2 * cosDeg(tiltDeg));

/**
 * The line and the thinnest stock for which no edge of either half is thinner than the thinnest allowed at any of the tilts
 * (degrees, positive as the saw's). For tilts from 0 to b that is T = 2a + s tan b + k / cos b, with the cut straight at the table
 * as well as through the middle.
 */
export function layCut(asked: CutAsked, sidingMm: number, tiltsDeg: Iterable<number>): Cut {
  const { kerfMm, straightAtMm, thinnestEdgeMm = RIP_DEFAULTS.thinnestEdgeMm } = asked;
  let lineMm = Number.NEGATIVE_INFINITY;
  let beyondLineMm = Number.NEGATIVE_INFINITY;
  for (const tiltDeg of tiltsDeg) {
    const spareMm = thinnestEdgeMm + halfKerfMm(kerfMm, tiltDeg);
    const awayMm = [-straightAtMm, sidingMm - straightAtMm].map((heightMm) => heightMm * tanDeg(tiltDeg));
    lineMm = Math.max(lineMm, spareMm - Math.min(...awayMm));
    beyondLineMm = Math.max(beyondLineMm, spareMm + Math.max(...awayMm));
  }
  return { sidingMm, kerfMm, straightAtMm, lineMm, thicknessMm: lineMm + beyondLineMm };
}

/** Where the middle of the kerf lies on the stock's upper and lower side, in mm from the reference face. */
export function lineOf(cut: Cut, tiltDeg: number): { readonly topMm: number; readonly bottomMm: number } {
  const at = (heightMm: number) => cut.lineMm + (heightMm - cut.straightAtMm) * tanDeg(tiltDeg);
  return { topMm: at(cut.sidingMm), bottomMm: at(0) };
}
