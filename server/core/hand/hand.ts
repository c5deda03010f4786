/** A tilt hand, modelled, that hears numbers and turns to them. Plain data and pure steps: time and chance come in. */
import type { Draws } from '../numeric/draws.ts';
import { heardInstead } from './misheard.ts';
import { type HandTraits, QUICKEST_MS } from './traits.ts';
import { standingWheel, turnToward, type Wheel } from './wheel.ts';

export interface Hand {
  readonly wheel: Wheel;
  readonly goal: Goal | null;
  /** Calls being heard out or reacted to, in their order. */
  readonly coming: readonly Goal[];
  /** A display that is followed, as it was seen lately; see followDisplay. */
  readonly seen: readonly Seen[];
  /** The target as it is followed, smoothed; null before anything was seen. */
  readonly smoothDeg: number | null;
  /** What is done beside the model in following, as a share of the error seen. */
  readonly wander: number;
}
interface Goal {
  /** The call's, so that one that is cut off can be forgotten. */
  readonly id: string;
  /** Where the wheel is turned to: the true tilt, with this hand's small error in it. */
  readonly deg: number;
  /** When its words are over, and when the hand has reacted to them. */
  readonly overMs: number;
  readonly fromMs: number;
  /** To be there by then, turning evenly; null: as fast as it goes. */
  readonly byMs: number | null;
}
export interface Seen {
  readonly atMs: number;
  /** The tilt wanted a look-ahead from then, as it is shown. */
  readonly aheadDeg: number;
  /** The tilt had, as it is shown. */
  readonly hadDeg: number;
}

const NOTHING_SEEN = { seen: [], smoothDeg: null, wander: 0 } as const;

export const restingHand = (tiltDeg = 0): Hand => ({
  wheel: standingWheel(tiltDeg),
  goal: null,
  coming: [],
  ...NOTHING_SEEN,
});

export interface HeardCall {
  readonly id: string;
  readonly deg: number;
  /** When its words are over. */
  readonly overMs: number;
  /** Turn evenly over so long by feeling; null: at once. */
  readonly evenMs: number | null;
  /** The first bevel is turned to with time to check it: it is neither misheard nor misread. */
  readonly isChecked?: boolean;
  /** The true tilt at which the readout shows a figure. */
  readonly trueTiltDeg: (shownDeg: number) => number;
}

/** A call begins to be heard. */
export function hear(hand: Hand, call: HeardCall, traits: HandTraits, draw: Draws): Hand {
  const isChecked = call.isChecked === true;
  const figure = isChecked ? call.deg : understood(hand, call.deg, traits, draw);
  if (figure === null) return hand;
  const slip = !isChecked && draw.even() < traits.slips ? (draw.even() < 0.5 ? -1 : 1) : 0;
  const within = draw.even() - 0.5;
  const deg = call.trueTiltDeg(figure + (slip + within) * traits.readoutDeg);
  const reactionMs = Math.max(QUICKEST_MS, traits.reactionMs * Math.exp(traits.reactionSpread * draw.normal()));
  const fromMs = call.overMs + reactionMs;
  const byMs = call.evenMs === null ? null : fromMs + call.evenMs * (1 + traits.rhythmSpread * draw.normal());
  return { ...hand, coming: [...hand.coming, { id: call.id, deg, overMs: call.overMs, fromMs, byMs }] };
}

/** The number as it is understood; null where it is not, or cannot be believed. */
function understood(hand: Hand, deg: number, traits: HandTraits, draw: Draws): number | null {
  const chance = draw.even();
  if (chance < traits.unheard) return null;
  if (chance >= traits.unheard + traits.misheard) return deg;
  const heard = heardInstead(deg, draw);
  const last = (hand.coming.at(-1) ?? hand.goal)?.deg ?? hand.wheel.tiltDeg;
  return heard !== null && Math.abs(heard - last) <= traits.unbelievableDeg ? heard : null;
}

/** A call was cut off at this moment: what was not heard out is not turned to. */
export function forget(hand: Hand, id: string, atMs: number): Hand {
  const isUnheard = (goal: Goal): boolean => goal.id === id && goal.overMs > atMs;
  return hand.coming.some(isUnheard) ? { ...hand, coming: hand.coming.filter((goal) => !isUnheard(goal)) } : hand;
}

/** "Hold the tilt": whatever was being turned to is let be. */
export const hold = (hand: Hand): Hand => ({
  wheel: { ...hand.wheel, degPerMs: 0 },
  goal: null,
  coming: [],
  ...NOTHING_SEEN,
});

/** The hand `dtMs` after `atMs`, on what it has heard. */
export function turnOn(hand: Hand, atMs: number, dtMs: number, traits: HandTraits): Hand {
  const begun = begin(hand, atMs);
  const { goal } = begun;
  if (goal === null) return begun;
  const byMs = goal.byMs === null ? 0 : goal.byMs - atMs;
  const wheel = turnToward(begun.wheel, goal.deg, byMs, dtMs, traits);
  if (wheel === begun.wheel) return begun;
  // Field by field: this is done at every step of a simulated run, and copying by `...` takes twenty times as long.
  return { wheel, goal, coming: begun.coming, seen: begun.seen, smoothDeg: begun.smoothDeg, wander: begun.wander };
}

function begin(hand: Hand, atMs: number): Hand {
  const next = hand.coming[0];
  if (next === undefined || atMs < next.fromMs) return hand;
  return begin({ ...hand, goal: next, coming: hand.coming.slice(1) }, atMs);
}
