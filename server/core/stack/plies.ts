/**
 * Parallel laminations that fit between the wedges: whole ones, in the moulding less both wedges where they are thickest together,
 * so that the frame is nowhere deeper than its moulding. A hair of rounding does not cost a lamination.
 */
export function pliesBetween(mouldingMm: number, bothWedgesMm: number, laminationMm: number): number {
  return Math.max(0, Math.floor((mouldingMm - bothWedgesMm) / laminationMm + 1e-6));
}
