import { beliefAt } from './predict.ts';
import type { Track } from './track.ts';

export interface TrackedPlace {
  readonly positionMm: number;
  readonly sdMm: number;
  readonly speedMmPerMs: number;
  readonly speedSdMmPerMs: number;
}

/** The stock at a moment, carried on from the last evidence with an uncertainty that grows; null before any evidence. */
export function placeAt({ now }: Track, atMs: number): TrackedPlace | null {
  if (now === null) return null;
  const { mean, cov } = beliefAt(now, Math.max(atMs, now.belief.atMs));
  return {
    positionMm: mean[0],
    sdMm: Math.sqrt(Math.max(0, cov[0])),
    speedMmPerMs: mean[1],
    speedSdMmPerMs: Math.sqrt(Math.max(0, cov[4])),
  };
}

/** The place alone, for whoever asks often: as `placeAt` says it, without its doubt. */
export function positionAt({ now }: Track, atMs: number): number | null {
  if (now === null) return null;
  const { mean, atMs: lastMs } = now.belief;
  // Standing wood has no speed; moving wood keeps its own until something else is seen.
  return now.isStanding ? mean[0] : mean[0] + mean[1] * Math.max(0, atMs - lastMs);
}
