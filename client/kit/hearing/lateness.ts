/**
 * How late an ear hears, from taps. A person taps at each click that is heard, then at each flash that is seen: what the second
 * series takes is this person's own time, so that what the first takes longer is the output's. Times in ms.
 */
import { median, sdByMedian } from '../../../server/core/numeric/median.ts';

/**
 * The eye's taps come so much later than the ear's. Source: T. W. Forbes, "The effect of certain variables on visual and auditory
 * reaction times" (read in an excerpt): 150 to 200 ms to a light, 120 to 160 ms to a sound, in the papers compared there.
 */
export const EYE_SLOWER_MS = 35;
/** From the frame that is asked for until half the panel shows it, at 60 Hz: one frame and a half (derived; panels differ). */
export const SCREEN_MS = 25;

/** Fewer good taps than this in a series tell nothing. */
const FEWEST_TAPS = 5;
/** Twice the standard error: a result no better than this is not kept. */
const WORST_DOUBT_MS = 80;
/** Quicker than this nobody answers: the tap was already under way. */
const GUESSED_MS = 80;

type Lateness =
  | { readonly ok: true; readonly extraMs: number; readonly doubtMs: number }
  | { readonly ok: false; readonly why: 'too few' | 'too uneven' };

/**
 * `heardMs`: from each click's leaving the device, as its browser believes, to the tap. `seenMs`: from each flash to the tap.
 * `extraMs` is how much later than the browser believes the sound is heard, never below 0; `doubtMs` is twice its standard error.
 */
export function latenessOf(heardMs: readonly number[], seenMs: readonly number[]): Lateness {
  const heard = heardMs.filter((ms) => ms >= GUESSED_MS);
  const seen = seenMs.filter((ms) => ms >= GUESSED_MS);
  if (heard.length < FEWEST_TAPS || seen.length < FEWEST_TAPS) return { ok: false, why: 'too few' };
  const doubtMs = 2 * Math.hypot(errorOfMedian(heard), errorOfMedian(seen));
  if (doubtMs > WORST_DOUBT_MS) return { ok: false, why: 'too uneven' };
  const ownMs = median(seen) - EYE_SLOWER_MS;
  return { ok: true, extraMs: Math.max(0, median(heard) - ownMs), doubtMs };
}

/**
 * Standard error of a median of normal values, 1.253 s/sqrt(n) (derived: sqrt(pi/2)), with s from the median of the distances
 * from it, so that one tap that was slept through does not count.
 */
function errorOfMedian(values: readonly number[]): number {
  const middle = median(values);
  const spread = sdByMedian(values.map((value) => Math.abs(value - middle)));
  return (Math.sqrt(Math.PI / 2) * spread) / Math.sqrt(values.length);
}
