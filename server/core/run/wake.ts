import { nextDueMs } from './lead.ts';
import { overdueAtMs } from './overdue.ts';
import { silentAtMs } from './silence.ts';
import type { RunState } from './state.ts';

/** Sets when the engine next wants to be woken; never for the past. */
export function withWake(state: RunState, atMs: number): RunState {
  const times = [nextDueMs(state), silentAtMs(state), overdueAtMs(state)].filter((time) => time != null);
  const wakeAtMs = times.length === 0 ? null : Math.max(atMs, Math.min(...times));
  return { ...state, wakeAtMs };
}
