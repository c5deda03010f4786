/** The bevel that was called last was heard by nobody, and somebody hears again. */

import { isByDegrees } from '../call/degreeCalls.ts';
import { callForPlace, repeatCall } from '../call/repeat.ts';
import { callBevel } from '../call/say.ts';
import { firstInTime } from '../call/whenToCall.ts';
import { type Step, stationAt } from '../engine/effects.ts';
import type { RunState } from '../engine/state.ts';
import { isMoving } from '../place/moving.ts';
import { believed } from '../place/position.ts';
import { signalLost } from './commanded.ts';

/** Says it again, in fewer words where need be, if it can still be over in time; where it cannot, the ear was away too long. */
export function saidAgain(state: RunState, atMs: number): Step {
  const { reckoning, turningTo, reached } = state;
  if (state.phase !== 'feeding') return [state, []];
  if (isByDegrees(state)) return callForPlace(state, atMs);
  const isTimed = reckoning !== null && reckoning.by !== 'press' && isMoving(believed(reckoning));
  // The wood waits for the first bevel; and on the pedal alone nothing tells how much time there is.
  if (!isTimed || turningTo < 1) return repeatCall(state, atMs);
  const first = firstInTime(state, turningTo, atMs);
  if (turningTo >= reached && first.index === turningTo) return callBevel(state, atMs, turningTo, { text: first.text });
  return signalLost(
    state,
    atMs,
    'sound',
    `The call for mark ${stationAt(state, turningTo).mark} was heard by nobody in time.`,
  );
}
