/** A fresh small run, played event by event, and short words for what came of it. */
import type { RunEffect, RunEvent } from '../../server/core/run/engine/events.ts';
import { initialState } from '../../server/core/run/engine/initialState.ts';
import type { RunState } from '../../server/core/run/engine/state.ts';
import { step } from '../../server/core/run/step.ts';
import { smallSetup } from './runSetup.ts';

/** Plays events on a fresh run; gives the state and everything that was asked for, in order. */
export function play(...events: readonly RunEvent[]): {
  state: RunState;
  effects: RunEffect[];
  last: readonly RunEffect[];
} {
  let state = initialState(smallSetup());
  const effects: RunEffect[] = [];
  let last: readonly RunEffect[] = [];
  for (const event of events) {
    [state, last] = step(state, event);
    effects.push(...last);
  }
  return { state, effects, last };
}

export const started = (atMs = 0): RunEvent => ({ kind: 'started', atMs, withoutSound: false });
export const press = (atMs: number, gesture: 'next' | 'again' | 'back' | 'stop' = 'next', id?: string): RunEvent => ({
  kind: 'pressed',
  atMs,
  gesture,
  ...(id === undefined ? {} : { id }),
});
export const scan = (atMs: number, mark: number, offsetMm = 0): RunEvent => ({ kind: 'scanned', atMs, mark, offsetMm });
export const woken = (atMs: number): RunEvent => ({ kind: 'woken', atMs });
export const called = (effects: readonly RunEffect[]) =>
  effects.flatMap((effect) => (effect.kind === 'say' ? [{ mark: effect.call.mark, deg: effect.call.deg }] : []));
export const told = (effects: readonly RunEffect[]) =>
  effects.flatMap((effect) => (effect.kind === 'tell' ? [effect.notice.code] : []));
export const said = (effects: readonly RunEffect[]) =>
  effects.flatMap((effect) => (effect.kind === 'say' ? [effect.call.text] : []));
export const refusals = (effects: readonly RunEffect[]) =>
  effects.flatMap((effect) => (effect.kind === 'refuse' ? [effect.code] : []));
