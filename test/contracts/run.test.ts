/** The contract's chapter "What a run does", sentence by sentence. */
import { describe, expect, it } from 'vitest';
import type { Gesture, RunEvent } from '../../server/core/run/engine/events.ts';
import { initialState } from '../../server/core/run/engine/initialState.ts';
import { step } from '../../server/core/run/step.ts';
import { standingFeed, stepFeed, wheelMm } from '../../server/core/simulate/feedModel.ts';
import { phrases } from '../../server/core/words/phrases.ts';
import { smallSetup } from '../kit/runSetup.ts';
import { runSpec } from '../kit/runSpec.ts';

const { given } = runSpec();
const start: RunEvent = { kind: 'started', atMs: 0, withoutSound: false };
const press = (atMs: number, gesture: Gesture = 'next', id?: string): RunEvent => ({
  kind: 'pressed',
  atMs,
  gesture,
  ...(id === undefined ? {} : { id }),
});
const travel = (atMs: number, mm: number): RunEvent => ({ kind: 'moved', atMs, mm });
const resumed = (atMs: number): RunEvent => ({ kind: 'resumed', atMs });
const restarted = (atMs: number): RunEvent => ({ kind: 'stopped', atMs, by: 'restart' });
const lost = (atMs: number): RunEvent => ({ kind: 'signal-lost', atMs, lifeline: 'travel', detail: 'Unplugged.' });
const upTo = (mark: number): RunEvent[] => [start, ...Array.from({ length: mark }, (_, i) => press(5000 * (i + 1)))];

describe('the pedal', () => {
  it('start makes the run feeding and calls the first bevel', () => {
    given().when(start).gives({ kind: 'say', mark: 1, deg: 8, startsAtMs: 0 }).leaves({ phase: 'feeding', reached: 0 });
  });
  it('a press says that the next mark is at the blade and calls the one after it', () => {
    given(start)
      .when(press(5000, 'next', 'p1'))
      .gives({ kind: 'say', mark: 2, deg: 10, startsAtMs: 5000, cause: 'p1' })
      .leaves({ reached: 1 });
  });
  it('a press cuts off what is being spoken', () => {
    given(start).when(press(400)).gives({ kind: 'cut-off', id: 'c1' }, { kind: 'say', mark: 2, startsAtMs: 400 });
  });
  it('the press at the last mark finishes the run', () => {
    given(...upTo(4))
      .when(press(25_000))
      .leaves({ phase: 'finished', reached: 5 });
  });
  it('again repeats the last call', () => {
    given(...upTo(2))
      .when(press(12_000, 'again'))
      .gives({ kind: 'say', mark: 3, deg: 12 })
      .leaves({ reached: 2 });
  });
  it('back takes the last press back and calls that bevel again', () => {
    given(...upTo(2))
      .when(press(12_000, 'back'))
      .gives({ kind: 'say', mark: 2, deg: 10 })
      .leaves({ reached: 1 });
  });
  it('there is nothing to take back before the first mark', () => {
    given(start).when(press(3000, 'back')).isRefused('nothing-to-take-back');
  });
  it('stop is "stop feed", said to everyone, and resume repeats the bevel being turned to', () => {
    given(...upTo(2))
      .when(press(12_000, 'stop'))
      .gives({ kind: 'say', to: 'everyone', text: phrases.stopFeed })
      .leaves({ phase: 'stopped' });
    given(...upTo(2), press(12_000, 'stop'))
      .when(resumed(20_000))
      .gives({ kind: 'say', mark: 3, deg: 12 })
      .leaves({ phase: 'feeding', reached: 2 });
  });
  it('a press in ready or stopped is refused', () => {
    given().when(press(1)).isRefused('not-feeding');
    given(start, press(10, 'stop')).when(press(5000)).isRefused('not-feeding');
  });
  it('a press in lost counts, and the run is feeding again', () => {
    given(...upTo(1), lost(7000))
      .when(press(15_000))
      .gives({ kind: 'say', mark: 3 })
      .leaves({ phase: 'feeding', reached: 2 });
  });
  it('resume needs no source', () => {
    given(...upTo(1), lost(7000))
      .when(resumed(15_000))
      .leaves({ phase: 'feeding', reached: 1 });
  });
  it('a finished run takes nothing more', () => {
    given(...upTo(5))
      .when(press(40_000))
      .isRefused('finished');
    given(...upTo(5))
      .when(start)
      .isRefused('finished');
  });
});

describe('travel', () => {
  it('is not counted before the start', () => {
    given().when(travel(1, 3)).isRefused('not-feeding');
  });
  it('the first reading after the start is position 0, whatever it counts', () => {
    given(start)
      .when(travel(3000, 7312.4))
      .leaves({ reached: 1, reckoning: expect.objectContaining({ positionMm: 0 }) });
  });
});

describe('a restart', () => {
  it('finds a run that was feeding stopped at the same mark', () => {
    given(...upTo(3))
      .when(restarted(99_000))
      .gives({ kind: 'tell', code: 'restarted', mark: 3 })
      .leaves({ phase: 'stopped', reached: 3 });
  });
  it('leaves a stopped run as it was', () => {
    given(start, press(10, 'stop')).when(restarted(99_000)).changesNothing();
  });
});

it('a simulated feed takes a run from the first mark to the last, and every bevel is called before its mark', () => {
  let state = initialState(smallSetup());
  let wood = standingFeed({ mPerMin: 1.5, seed: 3 });
  const calledAt = new Map<number, number>();
  const reachedAt = new Map<number, number>();
  const take = (event: RunEvent): void => {
    const [next, effects] = step(state, event);
    for (const effect of effects)
      if (effect.kind === 'say' && effect.call.mark !== undefined)
        calledAt.set(effect.call.mark, effect.call.startsAtMs);
    for (let mark = state.reached + 1; mark <= next.reached; mark++) reachedAt.set(mark, event.atMs);
    state = next;
  };
  take(start);
  for (let atMs = 3000; state.phase !== 'finished' && atMs < 120_000; atMs += 20) {
    if (state.wakeAtMs !== null && state.wakeAtMs <= atMs) take({ kind: 'woken', atMs });
    take(travel(atMs, wheelMm(wood)));
    wood = stepFeed(wood, 20, state.phase === 'feeding');
  }
  expect(state.phase).toBe('finished');
  expect([...reachedAt.keys()]).toEqual([1, 2, 3, 4, 5]);
  for (const mark of [1, 2, 3, 4, 5]) expect(calledAt.get(mark)).toBeLessThan(reachedAt.get(mark) ?? Number.NaN);
});
