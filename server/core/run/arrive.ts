import { isByDegrees } from './degrees.ts';
import { missed, tellTooFast } from './lead.ts';
import { cutOff, isHeard } from './say.ts';
import type { RunState } from './state.ts';
import { follow, type Step } from './turn.ts';

/** A mark counts as reached from here, so that rounding in a count does not hold it back. */
export const AT_BLADE_MM = 0.5;

/** A call whose last word is nearly out is not torn off. */
const TAIL_MS = 60;

/** Counts every mark that has passed the blade; one that was never called is recorded as missed. */
export function arrive(state: RunState, atMs: number): Step {
  const position = (state.reckoning?.positionMm ?? 0) + AT_BLADE_MM;
  const { stations } = state.setup;
  let reached = state.reached;
  while (reached < stations.length && (stations[reached]?.positionMm ?? Infinity) <= position) reached += 1;
  if (reached === state.reached) return [state, []];
  // There the figures between the marks are what is called.
  if (isByDegrees(state)) return [{ ...state, reached, turningTo: Math.max(state.turningTo, reached - 1) }, []];
  const firstMissed = Math.max(state.reached, state.turningTo + 1);
  return follow(
    { ...state, reached },
    (now) => withoutLateCall(now, atMs),
    (now) => missed(now, firstMissed, reached, 'it passed the blade before its call'),
    (now) => (firstMissed < reached ? tellTooFast(now, firstMissed) : [now, []]),
  );
}

/** What is still being said of a mark that has reached the blade is never spoken on; the first bevel is, wood waits for it. */
export function withoutLateCall(state: RunState, atMs: number): Step {
  const { speaking, reached, turningTo, setup } = state;
  const isLate =
    speaking?.mark !== undefined &&
    speaking.startsAtMs + speaking.durationMs > atMs + TAIL_MS &&
    turningTo > 0 &&
    turningTo < reached &&
    setup.stations[turningTo]?.mark === speaking.mark;
  if (!isLate) return [state, []];
  return follow(
    state,
    (now) => cutOff(now, atMs),
    (now) =>
      isHeard(now, turningTo, atMs)
        ? [now, []]
        : missed(now, turningTo, turningTo + 1, 'it reached the blade before its words were over'),
  );
}
