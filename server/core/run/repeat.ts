import { callStep, isByDegrees, stepInForce } from './degrees.ts';
import { callBevel } from './say.ts';
import type { RunState } from './state.ts';
import type { Step } from './turn.ts';

/** Says again what is being turned to; where figures come between the marks, the one that is right for the wood at the blade. */
export function repeatCall(state: RunState, atMs: number, cause?: string): Step {
  if (!isByDegrees(state)) return callBevel(state, atMs, Math.max(0, state.turningTo), { cause });
  const index = Math.max(state.step, stepInForce(state));
  return index < 0 ? callBevel(state, atMs, 0, { cause }) : callStep(state, atMs, index, cause);
}
