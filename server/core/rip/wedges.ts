/**
 * The two halves of the ripped stock as they stand in the frame.
 *
 * They change places by sliding past each other, nothing is turned: the half at the reference face moves outboard and becomes
 * the outer wedge, its sawn face, which looked away from the reference face, now looking outboard; the other half becomes the
 * inner wedge, its sawn face looking inboard. So the reference face is the inboard one, the blade's top leans outboard, and the
 * edge of the outer wedge that grows with the tilt is the one that is up on the table. (`test/core/rip/wholeSaw.test.ts` builds
 * all of it in space, in every way that the stock can be laid on the table.)
 */
import { type Cut, halfKerfMm, lineOf } from './cut.ts';

/** An edge of the frame's section, fore or aft. */
export type Edge = 'forward' | 'aft';

/** Thickness at the [forward, aft] edge, square to the wedge's flat. */
export type EdgesMm = readonly [number, number];

export interface Wedges {
  readonly outerMm: EdgesMm;
  readonly innerMm: EdgesMm;
}

/** The wedges where the saw stands at this tilt; `up` is the edge that is up on the table: the outer wedge's thick edge. */
export function wedgesOf(cut: Cut, tiltDeg: number, up: Edge): Wedges {
  const { topMm, bottomMm } = lineOf(cut, tiltDeg);
  const lostMm = halfKerfMm(cut.kerfMm, tiltDeg);
  const asLaid = (top: number, bottom: number): EdgesMm => (up === 'aft' ? [bottom, top] : [top, bottom]);
  return {
    outerMm: asLaid(topMm - lostMm, bottomMm - lostMm),
    innerMm: asLaid(cut.thicknessMm - topMm - lostMm, cut.thicknessMm - bottomMm - lostMm),
  };
}

/** The wedge's thickness at one edge and at the other one. */
export const edgeOf = (edgesMm: EdgesMm, edge: Edge): number => edgesMm[edge === 'forward' ? 0 : 1];
export const otherEdge = (edge: Edge): Edge => (edge === 'forward' ? 'aft' : 'forward');
