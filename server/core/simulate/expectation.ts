/**
 * When a tilt hand who turns evenly expects the next mark: it began on the last bevel at one mark and on this one at the next,
 * sees on the strip how far they lie apart, and feels the feed from that. No display is needed.
 */
import type { Station } from '../run/state.ts';

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
  readonly beginsAtMs: number;
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
  readonly tiltDeg: number;
}

/** How long the turn to this station's bevel is to take; null for the first one, which is turned to at once. */
export function expect(
  before: Expectation,
  { stations, index, beginsAtMs, tiltDeg }: Beginning,
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
  const feltMmPerMs = felt(before, stations, index, beginsAtMs);
  const evenMs = (to.positionMm - from.positionMm) / feltMmPerMs;
  return {
    evenMs,
    expectation: { ...before, feltMmPerMs, last: { index, beginsAtMs, evenMs, fromDeg: from.callDeg } },
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
  if (last === null || now === undefined || then === undefined || atMs <= last.beginsAtMs) return feltMmPerMs;
  const just = (now.positionMm - then.positionMm) / (atMs - last.beginsAtMs);
  return Math.min(agreedMmPerMs * FARTHEST, Math.max(agreedMmPerMs / FARTHEST, (feltMmPerMs + just) / 2));
}
