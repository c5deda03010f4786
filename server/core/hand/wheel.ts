/**
 * The handwheel under a modelled hand, and the blade's tilt behind its looseness. Plain data. It moves in steps of time, with its
 * speed taken up and given up: the time of a whole turn, as plans and runs reckon it, is `timeOfTurnS` in saw/handwheel.ts.
 */

import { evenDeg, type Handwheel, tiltOfEvenDeg } from '../saw/handwheel.ts';

export interface Wheel {
  /** In even degrees where a turn is not worth the same everywhere. */
  readonly wheelDeg: number;
  /** What the readout and a tilt sensor measure, and what is sawn. */
  readonly tiltDeg: number;
  /** How fast the wheel is being turned. */
  readonly degPerMs: number;
}

interface WheelLimits {
  readonly degPerMs: number;
  readonly startUpMs: number;
  readonly backlashDeg: number;
  readonly takenUpDeg?: number;
  readonly wheel?: Handwheel;
}

export const standingWheel = (tiltDeg = 0): Wheel => ({ wheelDeg: tiltDeg, tiltDeg, degPerMs: 0 });

/** Turned at this speed for `dtMs`, if the hand is quick enough. */
export function turnAt(wheel: Wheel, degPerMs: number, dtMs: number, limits: WheelLimits): Wheel {
  const most = limits.degPerMs;
  const speed = Math.min(most, Math.max(-most, degPerMs));
  const wheelDeg = wheel.wheelDeg + speed * dtMs;
  const half = (limits.backlashDeg + (limits.takenUpDeg ?? 0)) / 2;
  if (limits.wheel === undefined) {
    const tiltDeg = Math.min(wheelDeg + half, Math.max(wheelDeg - half, wheel.tiltDeg));
    return { wheelDeg, tiltDeg, degPerMs: speed };
  }
  const even = Math.min(wheelDeg + half, Math.max(wheelDeg - half, evenDeg(limits.wheel, wheel.tiltDeg)));
  return { wheelDeg, tiltDeg: tiltOfEvenDeg(limits.wheel, even), degPerMs: speed };
}

/** Nearer than this to its figure a wheel with looseness is let be: to hunt for the rest would take it all up again. */
const LET_BE_DEG = 0.02;

/** Where the wheel must come to for a tilt: what of its looseness has been told is turned through first. */
function wantedAt(wheel: Wheel, deg: number, { takenUpDeg, wheel: turns }: WheelLimits): number {
  const even = turns === undefined ? deg : evenDeg(turns, deg);
  if (takenUpDeg === undefined) return even;
  const leftDeg = deg - wheel.tiltDeg;
  return Math.abs(leftDeg) <= LET_BE_DEG ? wheel.wheelDeg : even + (Math.sign(leftDeg) * takenUpDeg) / 2;
}

/**
 * Turned toward a figure for `dtMs`: no faster than the hand turns, speeding up from a stand and slowing down into the figure
 * at the same rate. `byMs` from now: evenly, so as to be there then; 0: as fast as it goes.
 */
export function turnToward(wheel: Wheel, deg: number, byMs: number, dtMs: number, limits: WheelLimits): Wheel {
  const wayDeg = wantedAt(wheel, deg, limits) - wheel.wheelDeg;
  if (wayDeg === 0 && wheel.degPerMs === 0) return wheel;
  const even = byMs > dtMs ? Math.abs(wayDeg) / byMs : limits.degPerMs;
  const gain = limits.degPerMs / Math.max(limits.startUpMs, dtMs);
  // The speed from which it can still stop within the way that is left.
  const stopping = Math.sqrt(2 * gain * Math.abs(wayDeg));
  const wanted = Math.sign(wayDeg) * Math.min(even, limits.degPerMs, stopping, Math.abs(wayDeg) / dtMs);
  const change = Math.min(gain * dtMs, Math.max(-gain * dtMs, wanted - wheel.degPerMs));
  return turnAt(wheel, wheel.degPerMs + change, dtMs, limits);
}
