import { rowAt } from '../../rowAt.ts';
import { withoutLateCall } from '../call/cutLateCall.ts';
import { isByDegrees } from '../call/degreeCalls.ts';
import { missed, tellTooFast } from '../call/whenToCall.ts';
import { follow, type Step } from '../engine/effects.ts';
import type { RunState } from '../engine/state.ts';

/** A mark counts as reached from here, so that rounding in a count does not hold it back. */
export const AT_BLADE_MM = 0.5;

/** Counts every mark that has passed the blade; one that was never called is recorded as missed. */
export function passMarks(state: RunState, atMs: number): Step {
  const position = (state.reckoning?.positionMm ?? 0) + AT_BLADE_MM;
  const { stations } = state.setup;
  let reached = state.reached;
  while (reached < stations.length && rowAt(stations, reached).positionMm <= position) reached += 1;
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
