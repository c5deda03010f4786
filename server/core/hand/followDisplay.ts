import type { Draws } from '../numeric/draws.ts';
import { evenPerDeg } from '../saw/handwheel.ts';
import type { Hand, Seen } from './hand.ts';
import type { HandTraits } from './traits.ts';
import { turnAt } from './wheel.ts';

/** An arm passes no noise that is quicker than it is: its lag (0.1 s, from memory) colours the remnant. */
const ARM_MS = 100;

/**
 * The hand `dtMs` after `shown`, following a display by the crossover model with look-ahead (see FollowingTraits): what was
 * seen a delay ago is put right at w_c, and the target of then was already the one of a look-ahead later.
 */
export function followDisplay(hand: Hand, shown: Seen, dtMs: number, traits: HandTraits, draw: Draws): Hand {
  const { goal, coming } = hand;
  const { crossoverPerMs, delayMs, smoothingMs, remnant } = traits.follows;
  const seen = look(hand.seen, shown, shown.atMs - delayMs);
  const known = seen[0];
  if (known === undefined || known.atMs > shown.atMs - delayMs)
    return { ...hand, seen, wheel: turnAt(hand.wheel, 0, dtMs, traits) };
  const before = hand.smoothDeg ?? known.aheadDeg;
  const share = smoothingMs > 0 ? 1 - Math.exp(-dtMs / smoothingMs) : 1;
  const smoothDeg = before + share * (known.aheadDeg - before);
  const wander = remnant > 0 ? wandered(hand.wander, remnant, dtMs, draw) : 0;
  const rate = crossoverPerMs * (smoothDeg - known.hadDeg) * (1 + wander);
  // A person turns more where a turn is worth less.
  const own = traits.wheel === undefined ? rate : rate * evenPerDeg(traits.wheel, hand.wheel.tiltDeg);
  const wheel = turnAt(hand.wheel, own, dtMs, traits);
  return { wheel, goal, coming, seen, smoothDeg, wander };
}

/** Noise of this density for each unit of the error, through the arm's lag: its variance is the density over twice the lag. */
function wandered(before: number, remnant: number, dtMs: number, draw: Draws): number {
  const kept = Math.exp(-dtMs / ARM_MS);
  const sd = Math.sqrt((Math.PI * remnant * 1000) / (2 * ARM_MS));
  return kept * before + Math.sqrt(1 - kept * kept) * sd * draw.normal();
}

/** What must be kept for later: from the last that was seen by `atMs`, which is known by now. */
function look(before: readonly Seen[], shown: Seen, atMs: number): readonly Seen[] {
  let from = 0;
  while (from < before.length && (before[from + 1] ?? shown).atMs <= atMs) from += 1;
  const seen = before.slice(from);
  seen.push(shown);
  return seen;
}
