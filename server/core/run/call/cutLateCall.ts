/** What is being said and can no longer be over in time is torn off: a number that comes to its end too late is the wrong number. */

import { follow, type Step, stationAt } from '../engine/effects.ts';
import type { RunState } from '../engine/state.ts';
import { isMoving } from '../place/moving.ts';
import { isSpeedKnown, latestMs } from './callTiming.ts';
import { isByDegrees } from './degreeCalls.ts';
import { cutOff, isHeard, stillSaid } from './say.ts';
import { callWhatIsDue, missed, tellTooFast } from './whenToCall.ts';

/** When what is still being said at `atMs` must be torn off; null where it is in time, or nothing tells the time by. */
export function cutsLateCallAtMs(state: RunState, atMs: number): number | null {
  const { speaking, reckoning, phase } = state;
  if (speaking === null || phase !== 'feeding' || reckoning === null || reckoning.by === 'press') return null;
  const overMs = speaking.startsAtMs + speaking.durationMs + state.hearsAfterMs;
  if (overMs <= atMs) return null;
  const placeMm = deadlineMm(state);
  const isTold = reckoning.by === 'travel' ? isMoving(reckoning) : isSpeedKnown(reckoning);
  if (placeMm === null || !isTold) return null;
  const byMs = latestMs(reckoning, placeMm);
  return overMs > byMs ? byMs : null;
}

/** The place at which the words being said must be over. The first bevel has none: the wood waits for it. */
function deadlineMm(state: RunState): number | null {
  const { speaking, turningTo, setup } = state;
  if (speaking?.deg === undefined) return null;
  if (speaking.mark === undefined) return isByDegrees(state) ? state.stepByMm : null;
  const station = setup.stations[turningTo];
  return turningTo > 0 && station?.mark === speaking.mark ? station.positionMm : null;
}

/** Tears it off if its time has come, and calls what is due then; otherwise null. */
export function cutLateCall(state: RunState, atMs: number): Step | null {
  const byMs = cutsLateCallAtMs(state, atMs);
  if (byMs === null || atMs < byMs) return null;
  return follow(
    state,
    (now) => withoutIt(now, atMs),
    (now) => callWhatIsDue(now, atMs),
  );
}

/** What is still being said of a mark that is at the blade is never spoken on. */
export function withoutLateCall(state: RunState, atMs: number): Step {
  const { reached, turningTo } = state;
  const said = stillSaid(state, atMs);
  const isOfReached = turningTo > 0 && turningTo < reached && said?.mark === stationAt(state, turningTo).mark;
  return isOfReached ? withoutIt(state, atMs) : [state, []];
}

function withoutIt(state: RunState, atMs: number): Step {
  const { turningTo, speaking } = state;
  const isMarks = speaking?.mark !== undefined && !isHeard(state, turningTo, atMs);
  const isNew = isMarks || speaking?.mark === undefined;
  return follow(
    state,
    (now) => cutOff(now, atMs),
    (now) => [isMarks ? { ...now, givenUp: turningTo } : now, []],
    (now) =>
      isMarks ? missed(now, turningTo, turningTo + 1, 'it reached the blade before its words were over') : [now, []],
    (now) => (isNew ? tellTooFast(now, Math.min(now.reached, now.setup.stations.length - 1)) : [now, []]),
  );
}
