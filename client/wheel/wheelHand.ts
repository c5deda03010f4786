/** The rehearsal's handwheel as a real one turns: no faster than a hand cranks, and no farther than the saw tilts. Pure. */
export interface WheelLimits {
  readonly turnsPerS: number;
  readonly degreesPerTurn: number;
  /** Smallest and greatest tilt that the saw reaches. */
  readonly tiltDeg: readonly [number, number];
}
export interface WheelHand {
  /** Where the wheel stands, in turns from square; clockwise is positive tilt. */
  readonly turns: number;
  /** Where the hand (mouse, finger) has pulled it to: the wheel follows at its own speed. */
  readonly wantedTurns: number;
}

/** `cranking`: an arrow key held, +1 or -1; otherwise 0. */
export function turnWheel(hand: WheelHand, cranking: -1 | 0 | 1, elapsedS: number, limits: WheelLimits): WheelHand {
  const reach = limits.turnsPerS * elapsedS;
  const wanted = cranking === 0 ? hand.wantedTurns : hand.turns + cranking * reach;
  const turns = clampTurns(hand.turns + Math.min(reach, Math.max(-reach, wanted - hand.turns)), limits);
  return { turns, wantedTurns: cranking === 0 ? clampTurns(wanted, limits) : turns };
}

export const tiltOf = (hand: WheelHand, { degreesPerTurn }: WheelLimits): number => hand.turns * degreesPerTurn;

function clampTurns(turns: number, { degreesPerTurn, tiltDeg: [least, most] }: WheelLimits): number {
  return Math.min(most / degreesPerTurn, Math.max(least / degreesPerTurn, turns));
}
