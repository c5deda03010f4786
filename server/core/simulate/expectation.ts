/**
 * When a tilt hand who turns evenly expects the next mark: it began on the last bevel at one mark and on this one at the next,
 * sees on the strip how far they lie apart, and feels the feed from that. No display is needed.
 *
 * The first turn begins when its mark is under way already, and the hand heard the blade take the wood: it has what is left. Of a
 * later turn it does not know whether the call came late or the feed is slower, and takes the whole interval.
 */
import type { Station } from '../run/engine/state.ts';

/** A feeling is not led astray by one odd interval: never farther than this from the feed that was agreed (assumption). */
const FARTHEST = 1.5;

export interface Expectation {
  readonly agreedMmPerMs: number;
  readonly feltMmPerMs: number;
  /** The turn that was begun last. */
  readonly last: Turn | null;
}
interface Turn {
  readonly index: number;
  /** When the mark in front of it was at the blade, as the hand takes it. */
  readonly inFrontAtMs: number;
  readonly evenMs: number;
  readonly fromDeg: number;
}

export const newExpectation = (agreedMmPerMs: number): Expectation => ({
  agreedMmPerMs,
  feltMmPerMs: agreedMmPerMs,
  last: null,
});

interface Beginning {
  readonly stations: readonly Station[];
  readonly index: number;
  readonly beginsAtMs: number;
  /** When the wood began to move, the first mark at the blade. */
  readonly feedBeganAtMs: number;
  readonly tiltDeg: number;
}

/**
 * How long the turn to this station's bevel is to take: 0 where its mark should be at the blade already, which is as fast as the
 * wheel goes; null for the first one, which is turned to at once.
 */
export function expect(
  before: Expectation,
  { stations, index, beginsAtMs, feedBeganAtMs, tiltDeg }: Beginning,
): { readonly evenMs: number | null; readonly expectation: Expectation } {
  const to = stations[index];
  const from = stations[index - 1];
  if (to === undefined || from === undefined) return { evenMs: null, expectation: before };
  const { last } = before;
  // Said again behind a stop: the same turning as before, over what is left of it.
  if (last?.index === index) {
    const whole = Math.abs(to.callDeg - last.fromDeg);
    const left = whole > 0 ? Math.min(1, Math.abs(to.callDeg - tiltDeg) / whole) : 1;
    return { evenMs: last.evenMs * left, expectation: before };
  }
  const inFrontAtMs = index === 1 ? Math.min(beginsAtMs, feedBeganAtMs) : beginsAtMs;
  const feltMmPerMs = felt(before, stations, index, inFrontAtMs);
  const intervalMs = (to.positionMm - from.positionMm) / feltMmPerMs;
  const evenMs = Math.max(0, inFrontAtMs + intervalMs - beginsAtMs);
  return {
    evenMs,
    expectation: { ...before, feltMmPerMs, last: { index, inFrontAtMs, evenMs, fromDeg: from.callDeg } },
  };
}

function felt(
  { last, agreedMmPerMs, feltMmPerMs }: Expectation,
  stations: readonly Station[],
  index: number,
  atMs: number,
): number {
  const now = stations[index - 1];
  const then = last === null ? undefined : stations[last.index - 1];
  if (last === null || now === undefined || then === undefined || atMs <= last.inFrontAtMs) return feltMmPerMs;
  const just = (now.positionMm - then.positionMm) / (atMs - last.inFrontAtMs);
  return Math.min(agreedMmPerMs * FARTHEST, Math.max(agreedMmPerMs / FARTHEST, (feltMmPerMs + just) / 2));
}
