/** The plank to get out for a rip. */
import type { RipChoices } from '../job.ts';

interface StockSize {
  readonly thicknessMm: number;
  readonly widthMm: number;
  readonly lengthMm: number;
}

/**
 * Thickness as it goes through the saw: both faces are planed first, for they become the flats that are glued, and the edges of
 * the wedges count on it. Width with the cleaning up still on; dressed off, it is the siding, the height that is sawn.
 * Length for the longer of the two wedges, both lying in the same plank (`placesMm`: all that has to lie within), and the waste at
 * both ends.
 */
export function stockSize(
  thicknessMm: number,
  sidingMm: number,
  { cleaningUpMm, endWasteMm }: Pick<RipChoices, 'cleaningUpMm' | 'endWasteMm'>,
  placesMm: readonly number[],
): StockSize {
  const spanMm = Math.max(...placesMm) - Math.min(...placesMm);
  return { thicknessMm, widthMm: sidingMm + 2 * cleaningUpMm, lengthMm: spanMm + 2 * endWasteMm };
}

/** Thickness to get out, with the cleaning up of both faces still on. */
export const roughThicknessMm = (thicknessMm: number, { cleaningUpMm }: Pick<RipChoices, 'cleaningUpMm'>): number =>
  thicknessMm + 2 * cleaningUpMm;
