/**
 * How far a plain stack would run off the frame's plane: layers that lie flat on the planking and are only bent, with no bevelled
 * wedge to lead them, follow a geodesic of the hull, and the section line is none. Its geodesic curvature is k sin b, with k the
 * curvature of the section and b the bevel; started along the section at the heel, the layers are off it, square to it along the hull, by
 * the double integral of that over the girth. Positive: aft.
 * Source: derived (k_g = k sin b: the part of the section's curvature that lies in the hull's tangent plane).
 * Error: to the first order in the slope that the layers have gained against the section; the slope is given, so that it can be judged
 * (at 0.3 the run-off is good to some 5 %).
 */

import { degToRad } from '../units.ts';
import type { HullFrame } from './hullFrame.ts';

interface RunOff {
  /** From the heel: how far off, and with what slope against the section line. */
  readonly places: readonly { readonly girthMm: number; readonly offMm: number }[];
  readonly atHeadMm: number;
  readonly slopeAtHead: number;
}

const STEPS = 100;

/** `mouldedFace` turns the frame's standing bevel into which way the hull grows. */
export function runOff(frame: HullFrame, mouldedFace: 'forward' | 'aft'): RunOff {
  const aft = mouldedFace === 'forward' ? 1 : -1;
  const stepMm = frame.girthMm / STEPS;
  const places = [{ girthMm: 0, offMm: 0 }];
  let [slope, offMm] = [0, 0];
  for (let i = 1; i <= STEPS; i++) {
    const at = frame.at((i - 0.5) * stepMm);
    const gained = at.curvaturePerMm * Math.sin(degToRad(aft * at.bevelDeg)) * stepMm;
    // The turn of a step counts over its second half.
    offMm += (slope + gained / 2) * stepMm;
    slope += gained;
    places.push({ girthMm: i * stepMm, offMm });
  }
  return { places, atHeadMm: offMm, slopeAtHead: slope };
}
