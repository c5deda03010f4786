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

/**
 * Whether it would be over in time, said again at this moment. Null where nothing tells: on the pedal alone, before the wood moves, and
 * in `degree by degree`, where the figure is the one that the wood asks for by then.
 */
export function isStillInTime(state: RunState, atMs: number): boolean | null {
  const { reckoning, turningTo, reached } = state;
  const isTimed = reckoning !== null && reckoning.by !== 'press' && isMoving(believed(reckoning));
  if (isByDegrees(state) || !isTimed || turningTo < 1) return null;
  return turningTo >= reached && firstInTime(state, turningTo, atMs).index === turningTo;
}

/** Says it again, in fewer words where need be, if it can still be over in time; where it cannot, the ear was away too long. */
export function saidAgain(state: RunState, atMs: number): Step {
  const { phase, turningTo } = state;
  if (phase !== 'feeding') return [state, []];
  if (isByDegrees(state)) return callForPlace(state, atMs);
  const isInTime = isStillInTime(state, atMs);
  if (isInTime === null) return repeatCall(state, atMs);
  if (isInTime) return callBevel(state, atMs, turningTo, { text: firstInTime(state, turningTo, atMs).text });
  return signalLost(
    state,
    atMs,
    'sound',
    `The call for mark ${stationAt(state, turningTo).mark} was heard by nobody in time.`,
  );
}
