import { hullFrame } from '../../../server/core/frame/hullFrame.ts';
import type { HullSurface } from '../../../server/core/hull/surface.ts';
import type { AnalyticHull } from './analyticHull.ts';

export interface BevelError {
  readonly maxDeg: number;
  readonly rmsDeg: number;
}

const PLACES = 57;
const ENDS = 0.05;

/** Over `frames` frames away from the two outermost stations (of `stations`), and from 5 % of the girth at either end. */
export function bevelError(hull: AnalyticHull, surface: HullSurface, stations: number, frames: number): BevelError {
  const { lengthMm } = hull.traits;
  const margin = 2 / (stations - 1);
  let [maxDeg, squares, count] = [0, 0, 0];
  for (let f = 0; f < frames; f++) {
    const atMm = lengthMm * (margin + (1 - 2 * margin) * ((f + 0.37) / frames));
    const frame = hullFrame(surface, { atMm, cantDeg: 0, plankingMm: 0, sidingMm: 1, mouldedFace: 'forward' });
    if (frame === undefined) throw new Error(`no frame at ${atMm}`);
    for (const exact of hull.frame(atMm, PLACES)) {
      if (exact.share < ENDS || exact.share > 1 - ENDS) continue;
      const off = frame.at(exact.girthMm).bevelDeg - exact.bevelDeg;
      maxDeg = Math.max(maxDeg, Math.abs(off));
      squares += off * off;
      count += 1;
    }
  }
  return { maxDeg, rmsDeg: Math.sqrt(squares / count) };
}
