/** The plank to get out for a rip. */

/** Left on each face of the siding, for the faces to be cleaned up. Common practice (1.5 to 3 mm), no source. */
export const CLEANING_UP_MM = 2;
/** Left at each end beyond the first and the last mark. Common practice (150 to 300 mm), no source. */
export const END_WASTE_MM = 200;

export interface StockSize {
  readonly thicknessMm: number;
  readonly widthMm: number;
  readonly lengthMm: number;
}

/**
 * Thickness as it goes through the saw: both faces are planed first, for they become the flats that are glued, and the edges of
 * the wedges count on it. Width with the cleaning up still on; dressed off, it is the siding, the height that is sawn.
 * Length for the longer of the two wedges, both lying in the same plank, and the waste at both ends.
 */
export function stockSize(
  thicknessMm: number,
  sidingMm: number,
  ...linesMm: readonly (readonly number[])[]
): StockSize {
  const places = linesMm.flat();
  const spanMm = Math.max(...places) - Math.min(...places);
  return { thicknessMm, widthMm: sidingMm + 2 * CLEANING_UP_MM, lengthMm: spanMm + 2 * END_WASTE_MM };
}
