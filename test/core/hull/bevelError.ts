import { hullFrame } from '../../../server/core/frame/hullFrame.ts';
import type { HullSurface } from '../../../server/core/hull/surface.ts';
import { evenly } from '../../kit/offsetTable.ts';
import type { AnalyticHull } from './analyticHull.ts';

export interface BevelError {
  readonly maxDeg: number;
  readonly rmsDeg: number;
}

const PLACES = 57;
const ENDS = 0.05;

/** Over `frames` frames away from the two outermost stations (of `stations`), and from 5 % of the girth at either end. */
export function bevelError(hull: AnalyticHull, surface: HullSurface, stations: number, frames: number): BevelError {
  const margin = 2 / (stations - 1);
  const shares = evenly(margin, 1 - margin, frames + 1).map((share) => share + (0.37 * (1 - 2 * margin)) / frames);
  return errorOver(hull, surface, shares.slice(0, frames), ENDS);
}

/** The error in what `bevelError` leaves out: at the outermost stations and next to them, from heel to head. */
export const atEnds = (hull: AnalyticHull, surface: HullSurface): BevelError =>
  errorOver(hull, surface, [0.01, 0.03, 0.07, 0.93, 0.97, 0.99], 0);

function errorOver(hull: AnalyticHull, surface: HullSurface, shares: readonly number[], leftOut: number): BevelError {
  let [maxDeg, squares, count] = [0, 0, 0];
  for (const share of shares) {
    const atMm = hull.traits.lengthMm * share;
    const frame = hullFrame(surface, { atMm, cantDeg: 0, plankingMm: 0, sidingMm: 1, mouldedFace: 'forward' });
    if (frame === undefined) throw new Error(`no frame at ${atMm}`);
    for (const exact of hull.frame(atMm, PLACES)) {
      if (exact.share < leftOut || exact.share > 1 - leftOut) continue;
      const off = frame.at(exact.girthMm).bevelDeg - exact.bevelDeg;
      maxDeg = Math.max(maxDeg, Math.abs(off));
      squares += off * off;
      count += 1;
    }
  }
  return { maxDeg, rmsDeg: Math.sqrt(squares / count) };
}
