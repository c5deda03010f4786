/**
 * A tilt hand, modelled: hears a number to its end, reacts, and turns the wheel as fast as the crew turns it; or follows the
 * display. For rehearsing the program itself (`simulate`, the benches), never for advising a person.
 */
import type { Draws } from '../numeric/draws.ts';

export interface HandTraits {
  /** From the end of the words to the wheel moving, mean. Default: the crew's own. */
  readonly reactionMs: number;
  /** Its spread from call to call: a fifth (assumption; simple reactions spread by 10-20 %, from memory). */
  readonly reactionSpread: number;
  /** Fastest turning of the tilt. */
  readonly degPerMs: number;
  readonly readoutDeg: number;
  /** How finely a person stops on a readout: a quarter of its step, standard deviation (assumption). */
  readonly settleShare: number;
  /** Looseness between wheel and tilt (assumption). */
  readonly backlashDeg: number;
  /** The share of calls heard as another number, and of calls not heard at all (assumptions). */
  readonly misheard: number;
  readonly unheard: number;
  /**
   * Following a display: McRuer and Krendel's crossover model, w_c e^(-tau s)/s, tau 0.1-0.3 s and w_c a few rad/s
   * (AGARD-AG-188, second-hand). With the curve to come in view a person also turns along with it (van der El et al., read).
   */
  readonly crossoverPerMs: number;
  readonly followDelayMs: number;
}

export const usualHand = (
  crew: { readonly reactionS: number; readonly turnsPerS: number },
  degreesPerTurn: number,
  readoutDeg: number,
): HandTraits => ({
  reactionMs: crew.reactionS * 1000,
  reactionSpread: 0.2,
  degPerMs: (crew.turnsPerS * degreesPerTurn) / 1000,
  readoutDeg,
  settleShare: 0.25,
  backlashDeg: 0.1,
  misheard: 0.002,
  unheard: 0.001,
  crossoverPerMs: 3e-3,
  followDelayMs: 200,
});

export interface Hand {
  /** Where the wheel stands, and the blade behind its looseness. */
  readonly wheelDeg: number;
  readonly tiltDeg: number;
  readonly goal: Goal | null;
  /** A call being heard out or reacted to. */
  readonly coming: Goal | null;
  /** When the hand began on the last two calls: their distance is its feeling for the rhythm. */
  readonly begunMs: readonly number[];
}
interface Goal {
  readonly deg: number;
  readonly fromMs: number;
  /** To be there by then, turning evenly; null: as fast as it goes. */
  readonly byMs: number | null;
}

export const restingHand = (tiltDeg = 0): Hand => ({
  wheelDeg: tiltDeg,
  tiltDeg,
  goal: null,
  coming: null,
  begunMs: [],
});

/** Numbers that are taken for one another: six and three, nine and five (measured in noise, check values of the voice). */
const TAKEN_FOR: Readonly<Record<string, number>> = { '6': 3, '3': 6, '9': 5, '5': 9 };

/** The hand has begun to hear a call that is over at `overMs`. `evenMs`: turn evenly over so long; null: at once. */
export function hear(
  hand: Hand,
  call: { deg: number; overMs: number; evenMs: number | null },
  traits: HandTraits,
  draw: Draws,
): Hand {
  const chance = draw.even();
  if (chance < traits.unheard) return hand;
  const isMisheard = chance < traits.unheard + traits.misheard;
  const heard = isMisheard ? (TAKEN_FOR[String(Math.trunc(call.deg))] ?? call.deg) + (call.deg % 1) : call.deg;
  const reactionMs = Math.max(80, traits.reactionMs * (1 + traits.reactionSpread * draw.normal()));
  const fromMs = call.overMs + reactionMs;
  const deg = heard + traits.settleShare * traits.readoutDeg * draw.normal();
  return { ...hand, coming: { deg, fromMs, byMs: call.evenMs === null ? null : fromMs + call.evenMs } };
}

/** "Hold the tilt": whatever was being turned to is let be. */
export const hold = (hand: Hand): Hand => ({ ...hand, goal: null, coming: null });

/** The hand `dtMs` later, on what it has heard. */
export function turnOn(hand: Hand, atMs: number, dtMs: number, traits: HandTraits): Hand {
  const isBegun = hand.coming !== null && atMs >= hand.coming.fromMs;
  const begun = isBegun
    ? { ...hand, goal: hand.coming, coming: null, begunMs: [...hand.begunMs, atMs].slice(-2) }
    : hand;
  const { goal } = begun;
  if (goal === null) return begun;
  const wayDeg = goal.deg - begun.wheelDeg;
  const leftMs = goal.byMs === null ? 0 : goal.byMs - atMs;
  const wanted = leftMs > dtMs ? (wayDeg * dtMs) / leftMs : wayDeg;
  return turned(begun, wanted, dtMs, traits);
}

/** The hand `dtMs` later, following a display: what it showed a delay ago, and how fast that changed. */
export function followOn(
  hand: Hand,
  shown: { deg: number; degPerMs: number; readDeg: number },
  dtMs: number,
  traits: HandTraits,
): Hand {
  return turned(hand, (shown.degPerMs + traits.crossoverPerMs * (shown.deg - shown.readDeg)) * dtMs, dtMs, traits);
}

function turned(hand: Hand, wantedDeg: number, dtMs: number, { degPerMs, backlashDeg }: HandTraits): Hand {
  const most = degPerMs * dtMs;
  const wheelDeg = hand.wheelDeg + Math.min(most, Math.max(-most, wantedDeg));
  const half = backlashDeg / 2;
  const tiltDeg = Math.min(wheelDeg + half, Math.max(wheelDeg - half, hand.tiltDeg));
  return { ...hand, wheelDeg, tiltDeg };
}
