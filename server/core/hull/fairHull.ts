/** The hull of a table of offsets, faired within what its figures can tell: what a frame is taken from. */

import { type CoarserHulls, coarserHulls } from './coarserHulls.ts';
import { fairOffsets, type MovedPoint } from './fairOffsets.ts';
import type { OffsetTable } from './offsets.ts';
import { type HullSurface, hullSurface } from './surface.ts';
import { type TableError, tableError } from './tableError.ts';
import { roundingOfMm } from './tableRounding.ts';

export interface FairHull {
  readonly surface: HullSurface;
  /** How far fairing was allowed to move a point. */
  readonly toleranceMm: number;
  /** The points that it moved. */
  readonly moved: readonly MovedPoint[];
  /** What the rounding of the table makes of it. */
  readonly error: TableError;
  /** The same hull from less, made when first asked for. */
  coarser(): CoarserHulls;
}

/** `fairingMm` undefined: half of the step that the table's figures are rounded to, for so far a figure can be off its true place. */
export function fairHull(table: OffsetTable, fairingMm?: number): FairHull {
  const stepMm = roundingOfMm(table);
  const toleranceMm = fairingMm ?? stepMm / 2;
  const faired = fairOffsets(table, toleranceMm);
  let coarser: CoarserHulls | undefined;
  return {
    surface: hullSurface(faired.table),
    toleranceMm,
    moved: faired.moved,
    error: tableError(faired, stepMm),
    coarser: () => {
      coarser ??= coarserHulls(faired, toleranceMm);
      return coarser;
    },
  };
}
