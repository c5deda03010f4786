/** The hull of a table of offsets, faired within what its figures can tell: what a frame is taken from. */

import { fairOffsets, type MovedPoint } from './fairOffsets.ts';
import type { OffsetTable } from './offsets.ts';
import { roundingOfMm } from './rounding.ts';
import { type HullSurface, hullSurface } from './surface.ts';

export interface FairHull {
  readonly surface: HullSurface;
  /** How far fairing was allowed to move a point. */
  readonly toleranceMm: number;
  /** The points that it moved. */
  readonly moved: readonly MovedPoint[];
}

/** `fairingMm` undefined: half of the step that the table's figures are rounded to, for so far a figure can be off its true place. */
export function fairHull(table: OffsetTable, fairingMm?: number): FairHull {
  const toleranceMm = fairingMm ?? roundingOfMm(table) / 2;
  const { table: faired, moved } = fairOffsets(table, toleranceMm);
  return { surface: hullSurface(faired), toleranceMm, moved };
}
