import { beliefAt } from './beliefAt.ts';
import type { Track } from './track.ts';

export interface Place {
  readonly positionMm: number;
  readonly sdMm: number;
  readonly speedMmPerMs: number;
  readonly speedSdMmPerMs: number;
}

/** The stock at a moment, carried on from the last evidence with an uncertainty that grows; null before any evidence. */
export function placeAt({ now }: Track, atMs: number): Place | null {
  if (now === null) return null;
  const { mean, cov } = beliefAt(now, Math.max(atMs, now.belief.atMs));
  return {
    positionMm: mean[0],
    sdMm: Math.sqrt(Math.max(0, cov[0])),
    speedMmPerMs: mean[1],
    speedSdMmPerMs: Math.sqrt(Math.max(0, cov[4])),
  };
}
