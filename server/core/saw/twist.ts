/**
 * How fast the bevel may change along the stock.
 *
 * A blade W wide and g thick in a kerf k has (k - g) / 2 of play on either side. Where the cut turns by dtheta along a length W,
 * the wood at the distance h from the line along which the blade is tangent moves sideways by h dtheta, cos b of it square to the
 * blade; the blade cannot follow more than its play: dtheta/ds <= (k - g) cos b / (2 h W). Derived, no source: a guide.
 */
import { cosDeg, radToDeg } from '../units.ts';

export interface TwistSaw {
  readonly kerfMm: number;
  readonly bladeThicknessMm: number;
  readonly bladeWidthMm: number;
  readonly pivotHeightMm: number;
}

/** The limit at this bevel, degrees a metre of stock. `sidingMm` is the height that the blade cuts. */
export function twistLimitDegPerM(saw: TwistSaw, sidingMm: number, bevelDeg: number): number {
  const farthestMm = Math.max(Math.abs(saw.pivotHeightMm), Math.abs(sidingMm - saw.pivotHeightMm));
  const radPerMm = ((saw.kerfMm - saw.bladeThicknessMm) * cosDeg(bevelDeg)) / (2 * farthestMm * saw.bladeWidthMm);
  return radToDeg(radPerMm) * 1000;
}
