/** A source that counts travel and falls silent is a lost signal; silence is never "carry on". */
import { signalLost } from './commanded.ts';
import type { RunState } from './state.ts';
import type { Step } from './turn.ts';

/** Half a second, or four readings of a slower source. */
const SILENCE_MS = 500;
const SILENT_READINGS = 4;
/** While it is not yet known how often the source speaks: the first reading, and after a pause. */
const FIRST_SILENCE_MS = 3000;

export function silentAtMs(state: RunState): number | null {
  const travel = state.reckoning?.travel ?? null;
  if (state.phase !== 'feeding' || travel === null) return null;
  const patienceMs =
    travel.everyMs === null ? FIRST_SILENCE_MS : Math.max(SILENCE_MS, SILENT_READINGS * travel.everyMs);
  return travel.heardAtMs + patienceMs;
}

/** The step into `lost` if the source's time is over, otherwise null. */
export function noticeSilence(state: RunState, atMs: number): Step | null {
  const silentAt = silentAtMs(state);
  return silentAt !== null && atMs >= silentAt
    ? signalLost(state, atMs, 'The travel reading has fallen silent.')
    : null;
}
