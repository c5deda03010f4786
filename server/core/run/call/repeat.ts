import type { Step } from '../engine/effects.ts';
import type { RunState } from '../engine/state.ts';
import { callStep, isByDegrees, stepInForce } from './degreeCalls.ts';
import { callBevel } from './say.ts';

/** Says the last bevel again. */
export function repeatCall(state: RunState, atMs: number, cause?: string): Step {
  if (isByDegrees(state)) return callFigure(state, atMs, state.step < 0 ? stepInForce(state) : state.step, cause);
  return callBevel(state, atMs, Math.max(0, state.turningTo), { cause });
}

/** Says what is right for the wood where it stands: the bevel of the mark in front of it, or the figure that comes between. */
export function callForPlace(state: RunState, atMs: number): Step {
  if (isByDegrees(state)) return callFigure(state, atMs, stepInForce(state));
  return callBevel(state, atMs, Math.max(state.turningTo, state.reached));
}

function callFigure(state: RunState, atMs: number, index: number, cause?: string): Step {
  return index < 0 ? callBevel(state, atMs, 0, { cause }) : callStep(state, atMs, index, cause);
}
