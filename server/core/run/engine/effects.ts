/** The small pieces that every part of the engine is made of. */
import type { RefusalCode, RunEffect } from './events.ts';
import type { RunState, Station } from './state.ts';

export type Step = readonly [RunState, readonly RunEffect[]];

export function refuse(state: RunState, code: RefusalCode, message: string): Step {
  return [state, [{ kind: 'refuse', code, message }]];
}

/** Does one thing after another, gathering what they ask for. */
export function follow(state: RunState, ...turns: readonly ((state: RunState) => Step)[]): Step {
  let now = state;
  let effects: readonly RunEffect[] = [];
  for (const turn of turns) {
    const [next, asked] = turn(now);
    now = next;
    if (asked.length > 0) effects = effects.length === 0 ? asked : [...effects, ...asked];
  }
  return [now, effects];
}

export function stationAt(state: RunState, index: number): Station {
  const station = state.setup.stations[index];
  if (station === undefined) throw new Error(`no station ${index} among ${state.setup.stations.length}`);
  return station;
}

/** The last mark that reached the blade, 0 before the first. */
export function markReached(state: RunState): number {
  return state.reached === 0 ? 0 : stationAt(state, state.reached - 1).mark;
}

export const isUnderWay = (state: RunState): boolean => state.phase === 'feeding' || state.phase === 'lost';
