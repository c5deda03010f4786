import { changed } from './changed.ts';
import { nextDueMs } from './lead.ts';
import { overdueAtMs } from './overdue.ts';
import { silentAtMs } from './silence.ts';
import type { RunState } from './state.ts';
import { tornOffAtMs } from './tornOff.ts';

const NEVER = Number.POSITIVE_INFINITY;

/** Sets when the engine next wants to be woken; never for the past. */
export function withWake(state: RunState, atMs: number): RunState {
  const soonestMs = Math.min(
    nextDueMs(state, atMs) ?? NEVER,
    silentAtMs(state) ?? NEVER,
    overdueAtMs(state) ?? NEVER,
    tornOffAtMs(state, atMs) ?? NEVER,
  );
  return changed(state, { wakeAtMs: soonestMs === NEVER ? null : Math.max(atMs, soonestMs) });
}
