import { cutsLateCallAtMs } from './call/cutLateCall.ts';
import { nextDueMs } from './call/whenToCall.ts';
import { changed } from './engine/changed.ts';
import type { RunState } from './engine/state.ts';
import { silentAtMs } from './on/sourceSilent.ts';
import { unreadAtMs } from './on/unreadMark.ts';

const NEVER = Number.POSITIVE_INFINITY;

/** Sets when the engine next wants to be woken; never for the past. */
export function withWake(state: RunState, atMs: number): RunState {
  const soonestMs = Math.min(
    nextDueMs(state, atMs) ?? NEVER,
    silentAtMs(state) ?? NEVER,
    unreadAtMs(state) ?? NEVER,
    cutsLateCallAtMs(state, atMs) ?? NEVER,
  );
  return changed(state, { wakeAtMs: soonestMs === NEVER ? null : Math.max(atMs, soonestMs) });
}
