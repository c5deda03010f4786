import type { RunEvent } from './engine/events.ts';
import { initialState } from './engine/initialState.ts';
import type { RunSetup, RunState } from './engine/state.ts';
import { step } from './step.ts';

/** The state that a run's events lead to. What the run itself did on the way (calls, notices) follows from them again. */
export function fold(setup: RunSetup, events: Iterable<RunEvent>): RunState {
  let state = initialState(setup);
  for (const event of events) [state] = step(state, event);
  return state;
}
