/** A strip that is longer than its paper, in pieces that are laid over each other. Lengths along the strip. */
import type { Flag } from './flags.ts';

export interface Piece {
  /** Counted from 1. */
  readonly piece: number;
  /** Its own edge, which is laid on the join line of the piece before. */
  readonly fromMm: number;
  /** The join line for the next piece; the strip's end for the last. */
  readonly toMm: number;
  readonly isLast: boolean;
}

/** A join may come so much earlier than the paper's end, to fall between two flags. */
const EARLIEST = 0.6;
const CLEAR_MM = 3;

/**
 * Joins fall where they cut no flag; where the flags stand too close for that, the code and figures are cut through, and are whole
 * again when the pieces lie right.
 */
export function inPieces(flags: readonly Flag[], fromMm: number, toMm: number, longestMm: number): readonly Piece[] {
  const pieces: Piece[] = [];
  let from = fromMm;
  while (toMm - from > longestMm + 1e-9) {
    const at = joinBetween(flags, from + EARLIEST * longestMm, from + longestMm);
    pieces.push({ piece: pieces.length + 1, fromMm: from, toMm: at, isLast: false });
    from = at;
  }
  return [...pieces, { piece: pieces.length + 1, fromMm: from, toMm, isLast: true }];
}

/** The last place in this stretch that is clear of all flags. */
function joinBetween(flags: readonly Flag[], earliestMm: number, latestMm: number): number {
  let at = latestMm;
  for (const { fromMm, toMm } of flags.toReversed().toSorted((a, b) => b.toMm - a.toMm))
    if (fromMm - CLEAR_MM < at && toMm + CLEAR_MM > at) at = fromMm - CLEAR_MM;
  return at >= earliestMm ? at : latestMm;
}
