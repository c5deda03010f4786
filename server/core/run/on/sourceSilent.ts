/** A source that counts travel and falls silent is a lost signal; silence is never "carry on". */

import type { Step } from '../engine/effects.ts';
import type { RunState } from '../engine/state.ts';
import { signalLost } from './commanded.ts';

/** Half a second, or four readings of a slower source. */
export const SILENCE_MS = 500;
const SILENT_READINGS = 4;
/** But a source that speaks seldom is not waited for without end. */
const LONGEST_SILENCE_MS = 3000;

export function silentAtMs(state: RunState): number | null {
  const travel = state.reckoning?.travel ?? null;
  if (state.phase !== 'feeding' || travel === null) return null;
  const patienceMs =
    // While it is not yet known how often it speaks, at the first reading and after a pause, it is given all of it.
    travel.everyMs === null
      ? LONGEST_SILENCE_MS
      : Math.min(LONGEST_SILENCE_MS, Math.max(SILENCE_MS, SILENT_READINGS * travel.everyMs));
  return travel.heardAtMs + patienceMs;
}

/** The step into `lost` if the source's time is over, otherwise null. */
export function noticeSilence(state: RunState, atMs: number): Step | null {
  const silentAt = silentAtMs(state);
  return silentAt !== null && atMs >= silentAt
    ? signalLost(state, atMs, 'travel', 'The travel reading has fallen silent.')
    : null;
}
