/** Where a clip is silent, and taking that out. "Silent" is relative to the clip's own peak, so that no level need be set first. */
import { dbToGain, peakOf } from './format.ts';

/** Index of the first sample that is louder than `floorDb` below the peak; -1 if there is none. */
export function firstSound(samples: Float64Array, floorDb: number): number {
  const floor = floorOf(samples, floorDb);
  return samples.findIndex((s) => Math.abs(s) > floor);
}

/** Cuts what is silent before the first and after the last sound, but for `lead` and `tail` samples. Silence alone becomes empty. */
export function trimSilence(
  samples: Float64Array,
  { floorDb, lead, tail }: { readonly floorDb: number; readonly lead: number; readonly tail: number },
): Float64Array {
  const first = firstSound(samples, floorDb);
  if (first === -1) return new Float64Array(0);
  const floor = floorOf(samples, floorDb);
  const last = samples.findLastIndex((s) => Math.abs(s) > floor);
  return samples.slice(Math.max(0, first - lead), last + 1 + tail);
}

const floorOf = (samples: Float64Array, floorDb: number): number => peakOf(samples) * dbToGain(floorDb);
