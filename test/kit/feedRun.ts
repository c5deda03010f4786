import type { RunEffect, RunEvent } from '../../server/core/run/engine/events.ts';
import { initialState } from '../../server/core/run/engine/initialState.ts';
import type { RunSetup, RunState } from '../../server/core/run/engine/state.ts';
import { step } from '../../server/core/run/step.ts';

export interface Fed {
  readonly state: RunState;
  readonly effects: readonly { readonly atMs: number; readonly effect: RunEffect }[];
}

const MOST_WAKES = 200;

/** Plays events on a run, woken in between whenever it wants to be, and at last until `untilMs`. */
export function feedRun(setup: RunSetup, events: Iterable<RunEvent>, untilMs = 0): Fed {
  let state = initialState(setup);
  const effects: { atMs: number; effect: RunEffect }[] = [];
  const take = (event: RunEvent): void => {
    const [next, asked] = step(state, event);
    state = next;
    effects.push(...asked.map((effect) => ({ atMs: event.atMs, effect })));
  };
  const wakeUntil = (atMs: number): void => {
    for (let wakes = 0; state.wakeAtMs !== null && state.wakeAtMs < atMs; wakes += 1) {
      if (wakes > MOST_WAKES) throw new Error(`woken at ${state.wakeAtMs} over and over`);
      take({ kind: 'woken', atMs: state.wakeAtMs });
    }
  };
  for (const event of events) {
    wakeUntil(event.atMs);
    take(event);
  }
  wakeUntil(untilMs);
  return { state, effects };
}

export const FEED_BEGINS_MS = 4000;
export const startedAt0: RunEvent = { kind: 'started', atMs: 0, withoutSound: true };

/** A count each 50 ms of a steady feed that begins at FEED_BEGINS_MS, from the start of the run. */
export function* steadyFeed(mmPerMs: number, untilMm: number): Generator<RunEvent> {
  yield startedAt0;
  for (let atMs = FEED_BEGINS_MS; (atMs - FEED_BEGINS_MS) * mmPerMs <= untilMm; atMs += 50)
    yield { kind: 'moved', atMs, mm: Math.round((atMs - FEED_BEGINS_MS) * mmPerMs * 10) / 10 };
}

export const arrivesMs = (mmPerMs: number, placeMm: number): number => FEED_BEGINS_MS + placeMm / mmPerMs;

export const callsOf = ({ effects }: Fed) =>
  effects.flatMap(({ effect }) => (effect.kind === 'say' && effect.call.deg !== undefined ? [effect.call] : []));
export const missedOf = ({ effects }: Fed) =>
  effects.flatMap(({ effect }) => (effect.kind === 'missed' ? [effect.mark] : []));
export const toldOf = ({ effects }: Fed) =>
  effects.flatMap(({ effect }) => (effect.kind === 'tell' ? [effect.notice.code] : []));
export const saidOf = ({ effects }: Fed) =>
  effects.flatMap(({ effect }) => (effect.kind === 'say' ? [effect.call.text] : []));
