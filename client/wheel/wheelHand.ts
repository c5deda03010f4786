/**
 * The rehearsal's handwheel as a real one turns: no faster than a hand cranks, no farther than the saw tilts, worth as much a turn
 * as the saw's own, and with its looseness. It moves in steps of time, by turns: no time of a whole turn is reckoned here. Pure.
 */
import { evenDeg, type Handwheel, tiltOfEvenDeg } from '../../server/core/saw/handwheel.ts';

interface PageWheelLimits extends Handwheel {
  readonly turnsPerS: number;
  /** Smallest and greatest tilt that the saw reaches. */
  readonly tiltDeg: readonly [number, number];
}
export interface WheelHand {
  /** Where the wheel stands, in turns from square; clockwise is positive tilt. */
  readonly turns: number;
  /** Where the hand (mouse, finger) has pulled it to: the wheel follows at its own speed. */
  readonly wantedTurns: number;
  /** Where the tilt stands behind the looseness, in turns from square. */
  readonly tiltTurns: number;
}

/** A wheel that stands at a tilt, in the middle of its looseness. */
export function wheelAt(tiltDeg: number, limits: PageWheelLimits): WheelHand {
  const turns = turnsAt(tiltDeg, limits);
  return { turns, wantedTurns: turns, tiltTurns: turns };
}

/** `cranking`: an arrow key held, +1 or -1; otherwise 0. */
export function turnWheel(hand: WheelHand, cranking: -1 | 0 | 1, elapsedS: number, limits: PageWheelLimits): WheelHand {
  const reach = limits.turnsPerS * elapsedS;
  const wanted = cranking === 0 ? hand.wantedTurns : hand.turns + cranking * reach;
  const turns = clampTurns(hand.turns + Math.min(reach, Math.max(-reach, wanted - hand.turns)), limits);
  const half = (limits.backlashTurns ?? 0) / 2;
  return {
    turns,
    wantedTurns: cranking === 0 ? clampTurns(wanted, limits) : turns,
    tiltTurns: Math.min(turns + half, Math.max(turns - half, hand.tiltTurns)),
  };
}

export const tiltOf = (hand: WheelHand, limits: PageWheelLimits): number =>
  tiltOfEvenDeg(limits, hand.tiltTurns * limits.degreesPerTurn);

/** Against the stop the looseness is taken up too. */
function clampTurns(turns: number, limits: PageWheelLimits): number {
  const [least, most] = limits.tiltDeg;
  const half = (limits.backlashTurns ?? 0) / 2;
  return Math.min(turnsAt(most, limits) + half, Math.max(turnsAt(least, limits) - half, turns));
}

const turnsAt = (tiltDeg: number, limits: PageWheelLimits): number => evenDeg(limits, tiltDeg) / limits.degreesPerTurn;
