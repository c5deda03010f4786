import { describe, expect, it } from 'vitest';
import type { RunEffect, RunEvent } from '../../../server/core/run/events.ts';
import { initialState } from '../../../server/core/run/initialState.ts';
import type { RunState } from '../../../server/core/run/state.ts';
import { step } from '../../../server/core/run/step.ts';
import { phrases } from '../../../server/core/words/phrases.ts';
import { smallSetup } from '../../kit/runSetup.ts';

/** Plays events on a fresh run; gives the state and everything that was asked for, in order. */
function play(...events: readonly RunEvent[]): { state: RunState; effects: RunEffect[]; last: readonly RunEffect[] } {
  let state = initialState(smallSetup());
  const effects: RunEffect[] = [];
  let last: readonly RunEffect[] = [];
  for (const event of events) {
    [state, last] = step(state, event);
    effects.push(...last);
  }
  return { state, effects, last };
}

const started = (atMs = 0): RunEvent => ({ kind: 'started', atMs, withoutSound: false });
const press = (atMs: number, gesture: 'next' | 'again' | 'back' | 'stop' = 'next', id?: string): RunEvent => ({
  kind: 'pressed',
  atMs,
  gesture,
  ...(id === undefined ? {} : { id }),
});
const scan = (atMs: number, mark: number, offsetMm = 0): RunEvent => ({ kind: 'scanned', atMs, mark, offsetMm });
const woken = (atMs: number): RunEvent => ({ kind: 'woken', atMs });
const called = (effects: readonly RunEffect[]) =>
  effects.flatMap((effect) => (effect.kind === 'say' ? [{ mark: effect.call.mark, deg: effect.call.deg }] : []));
const told = (effects: readonly RunEffect[]) =>
  effects.flatMap((effect) => (effect.kind === 'tell' ? [effect.notice.code] : []));
const said = (effects: readonly RunEffect[]) =>
  effects.flatMap((effect) => (effect.kind === 'say' ? [effect.call.text] : []));
const refusals = (effects: readonly RunEffect[]) =>
  effects.flatMap((effect) => (effect.kind === 'refuse' ? [effect.code] : []));

describe('a run on the pedal', () => {
  it('calls the first bevel at the start, to be turned to before the wood touches the blade', () => {
    const { state, effects } = play(started(1000));
    expect(state.phase).toBe('feeding');
    expect(effects).toEqual([
      {
        kind: 'say',
        call: { id: 'c1', to: 'tilt hand', text: 'bevel 8', mark: 1, deg: 8, startsAtMs: 1000, durationMs: 1000 },
      },
    ]);
  });

  it('takes a press for "the next mark is at the blade" and calls the bevel of the mark after it at once', () => {
    const { state, last } = play(started(), press(3000, 'next', 'p1'));
    expect(state.reached).toBe(1);
    expect(last).toEqual([
      {
        kind: 'say',
        call: {
          id: 'c2',
          to: 'tilt hand',
          text: 'bevel 10',
          mark: 2,
          deg: 10,
          startsAtMs: 3000,
          durationMs: 1000,
          cause: 'p1',
        },
      },
    ]);
  });

  it('cuts off what is being said when pressed', () => {
    const { last } = play(started(), press(400));
    expect(last.map((effect) => effect.kind)).toEqual(['cut-off', 'say']);
  });

  it('finishes at the last mark', () => {
    const { state, effects } = play(started(), ...[3, 6, 9, 12, 15].map((s) => press(s * 1000)));
    expect(state.phase).toBe('finished');
    expect(called(effects).map(({ mark }) => mark)).toEqual([1, 2, 3, 4, 5, undefined]);
    expect(said(effects).at(-1)).toBe(phrases.runDone);
  });

  it('repeats the last call, and takes the last press back', () => {
    expect(called(play(started(), press(3000), press(5000, 'again')).last)).toEqual([{ mark: 2, deg: 10 }]);
    const back = play(started(), press(3000), press(6000), press(6500, 'back'));
    expect(called(back.last)).toEqual([{ mark: 2, deg: 10 }]);
    expect(back.state.reached).toBe(1);
    expect(refusals(play(started(), press(100, 'back')).last)).toEqual(['nothing-to-take-back']);
  });

  it('stops at once on a foot kept down, says it to everyone, and goes on only when told', () => {
    const stopped = play(started(), press(3000), press(3200, 'stop', 's'));
    expect(stopped.state.phase).toBe('stopped');
    expect(stopped.last).toMatchObject([
      { kind: 'cut-off', id: 'c2' },
      { kind: 'say', call: { text: phrases.stopFeed, to: 'everyone', startsAtMs: 3200, cause: 's' } },
    ]);
    expect(refusals(play(started(), press(1000, 'stop'), press(2000)).last)).toEqual(['not-feeding']);
    const again = play(started(), press(3000), press(3200, 'stop'), { kind: 'resumed', atMs: 9000 });
    expect(again.state.phase).toBe('feeding');
    expect(called(again.last)).toEqual([{ mark: 2, deg: 10 }]);
  });

  it('says a stop behind the last mark too, where there is still wood to saw', () => {
    const { state, last } = play(started(), ...[3, 6, 9, 12, 15].map((s) => press(s * 1000)), press(17_000, 'stop'));
    expect(state.phase).toBe('finished');
    expect(said(last)).toEqual([phrases.stopFeed]);
  });

  it('refuses what does not fit the phase and leaves the very same state', () => {
    const ready = initialState(smallSetup());
    for (const event of [
      press(1),
      scan(1, 1),
      { kind: 'moved', atMs: 1, mm: 5 },
      { kind: 'resumed', atMs: 1 },
    ] as const) {
      const [state, effects] = step(ready, event);
      expect(state).toBe(ready);
      expect(effects.map((effect) => effect.kind)).toEqual(['refuse']);
    }
    expect(refusals(play(started(), started(5)).last)).toEqual(['already-started']);
    expect(refusals(play(started(), { kind: 'ended', atMs: 2 }, press(3)).last)).toEqual(['finished']);
  });
});

describe('a run on scanned marks', () => {
  it('leads the next call so that words, reaction and wheel fit before the mark', () => {
    const at = (s: number) => s * 1000;
    const second = play(started(), scan(at(10), 1), scan(at(15), 2));
    // 150 mm in 5 s: mark 3 is due at 20 s. Needed: 1 s of words, 0.35 s, 2 degrees at 1.4 a second, 0.15 s in hand.
    expect(second.state.reached).toBe(2);
    const needed = 1000 + 350 + (2 / 1.4) * 1000 + 150;
    const dueMs = second.state.wakeAtMs ?? 0;
    expect(dueMs).toBeLessThan(20_000 - needed);
    expect(dueMs).toBeGreaterThan(20_000 - needed - 2500);
    expect(called(step(second.state, woken(dueMs - 1))[1])).toEqual([]);
    expect(called(step(second.state, woken(dueMs))[1])).toEqual([{ mark: 3, deg: 12 }]);
  });

  it('calls at once after the first scan, when no speed is known yet', () => {
    expect(called(play(started(), scan(10_000, 1)).last)).toEqual([{ mark: 2, deg: 10 }]);
  });

  it('notices a doubled, a skipped and a passed mark, and a mark that is not there', () => {
    const doubled = play(started(), scan(5000, 1), scan(5400, 1));
    expect(told(doubled.last)).toEqual(['mark-doubled']);
    expect(doubled.state.reached).toBe(1);
    const skipped = play(started(), scan(5000, 1), scan(10_000, 3));
    expect(told(skipped.last)).toContain('mark-skipped');
    expect(skipped.state.reached).toBe(3);
    const behind = play(started(), scan(5000, 1), scan(8000, 2), scan(11_000, 3), scan(11_500, 1));
    expect(told(behind.last)).toEqual(['mark-behind']);
    expect(behind.state.reached).toBe(3);
    expect(refusals(play(started(), scan(5000, 6)).last)).toEqual(['no-such-mark']);
  });

  it('records the skipped marks that were never called', () => {
    const { effects } = play(started(), scan(5000, 1), scan(10_000, 4));
    expect(effects.filter((effect) => effect.kind === 'missed')).toMatchObject([{ mark: 3 }]);
  });

  it('lets a mark that is seen ahead of the blade correct the position without counting it', () => {
    const { state } = play(started(), scan(5000, 1), scan(8000, 2, -40));
    expect(state.reached).toBe(1);
    expect(state.reckoning?.positionMm).toBeCloseTo(110, 1);
  });
});

describe('a mark reader that is not at the blade', () => {
  it('counts what is at the blade, not what it reads: 300 mm ahead of it', () => {
    const read = (atMs: number, mark: number): RunEvent => scan(atMs, mark, -300);
    const { state, effects } = play(started(), read(5000, 3), read(8000, 4), read(11_000, 5));
    expect(state.reached).toBe(3);
    expect(told(effects)).toEqual([]);
    expect(effects.filter(({ kind }) => kind === 'missed')).toEqual([]);
  });

  it('and 160 mm behind it', () => {
    expect(play(started(), scan(5000, 1, 160)).state.reached).toBe(2);
  });
});

describe('a run on a count of travel', () => {
  /** A count every 50 ms at a steady feed, from `fromMm`; woken in between whenever the engine wants to be. */
  function feed(mmPerMs: number, untilMm: number, from: RunState = play(started()).state, startMs = 1000) {
    let state = from;
    const effects: { atMs: number; effect: RunEffect }[] = [];
    const take = (event: RunEvent): void => {
      const [next, asked] = step(state, event);
      state = next;
      effects.push(...asked.map((effect) => ({ atMs: event.atMs, effect })));
    };
    for (let mm = 0, atMs = startMs; mm <= untilMm; mm += mmPerMs * 50, atMs += 50) {
      while (state.wakeAtMs !== null && state.wakeAtMs < atMs) take(woken(state.wakeAtMs));
      take({ kind: 'moved', atMs, mm: 7000 + mm });
    }
    return { state, effects };
  }

  it('takes the first count as position 0 and calls every mark so that its words are over in time', () => {
    const { state, effects } = feed(0.05, 601);
    expect(state.phase).toBe('finished');
    const calls = effects.flatMap(({ effect }) =>
      effect.kind === 'say' && effect.call.mark !== undefined ? [effect.call] : [],
    );
    expect(calls.map(({ mark }) => mark)).toEqual([2, 3, 4, 5]);
    for (const call of calls) {
      const arrivesAtMs = 1000 + (((call.mark ?? 0) - 1) * 150) / 0.05;
      const turnMs = call.mark === 4 ? 1000 / 1.4 : 2000 / 1.4;
      expect(call.startsAtMs + 1000 + 350 + turnMs).toBeLessThanOrEqual(arrivesAtMs);
      expect(call.startsAtMs).toBeGreaterThanOrEqual(arrivesAtMs - 3000);
    }
  });

  it('never speaks a call that can no longer be over in time; it says so and calls the next that can', () => {
    const { effects } = feed(0.2, 601);
    const arrives = (mark: number) => 1000 + ((mark - 1) * 150) / 0.2;
    for (const { effect } of effects)
      if (effect.kind === 'say' && effect.call.mark !== undefined)
        expect(effect.call.startsAtMs + effect.call.durationMs).toBeLessThanOrEqual(arrives(effect.call.mark) + 1);
    const calledOrMissed = effects.flatMap(({ effect }) =>
      effect.kind === 'say' && effect.call.mark !== undefined
        ? [effect.call.mark]
        : effect.kind === 'missed'
          ? [effect.mark]
          : [],
    );
    expect(calledOrMissed.toSorted()).toEqual([2, 3, 4, 5]);
    expect(effects.some(({ effect }) => effect.kind === 'tell' && effect.notice.code === 'too-fast')).toBe(true);
  });

  it('is lost after half a second of silence: said to everyone, and a press takes over', () => {
    const { state } = feed(0.05, 100);
    const heardAtMs = state.reckoning?.travel?.heardAtMs ?? 0;
    expect(step(state, woken(heardAtMs + 499))[0].phase).toBe('feeding');
    const [lost, effects] = step(state, woken(heardAtMs + 500));
    expect(lost.phase).toBe('lost');
    expect(said(effects)).toEqual([phrases.signalLost]);
    expect(told(effects)).toEqual(['signal-lost']);
    const [pressed, calls] = step(lost, press(heardAtMs + 4000));
    expect(pressed.phase).toBe('feeding');
    expect(called(calls)).toEqual([{ mark: 3, deg: 12 }]);
  });

  it('alarms when the stock is pulled back, and calls nothing while it stands', () => {
    const { state } = feed(0.05, 200);
    const mm = 7000 + (state.reckoning?.positionMm ?? 0);
    const [back, effects] = step(state, { kind: 'moved', atMs: 9000, mm: mm - 9 });
    expect(back.phase).toBe('stopped');
    expect(said(effects)).toEqual([phrases.pulledBack]);
    const [, later] = step(back, { kind: 'moved', atMs: 9100, mm: mm - 9 });
    expect(later).toEqual([]);
    const [, noise] = step(state, { kind: 'moved', atMs: 9000, mm: mm - 7 });
    expect(told(noise)).toEqual([]);
  });

  it('takes a confirming press back without uncounting the mark, and the count is believed again', () => {
    const { state } = feed(0.05, 160);
    const atMs = state.reckoning?.atMs ?? 0;
    const [confirmed] = step(state, press(atMs));
    const [back, effects] = step(confirmed, press(atMs + 300, 'back'));
    expect(back.reached).toBe(2);
    expect(back.reckoning?.positionMm).toBeCloseTo(160, 1);
    expect(called(effects)).toEqual([{ mark: 3, deg: 12 }]);
  });

  it('takes back no marks that travel has counted since the press', () => {
    const [pressedAt2] = step(feed(0.05, 160).state, press(4200));
    const [state] = step(pressedAt2, { kind: 'moved', atMs: 7300, mm: 7315 });
    expect(state.reached).toBe(3);
    expect(step(state, press(7400, 'back'))[0].reached).toBe(3);
  });

  it('counts presses while the wheel is stuck, and carries its zero along', () => {
    let state = play(started(), { kind: 'moved', atMs: 1000, mm: 7000 }).state;
    for (let atMs = 1050; atMs <= 12_000; atMs += 50) {
      [state] = step(state, { kind: 'moved', atMs, mm: 7000 });
      if (atMs % 3000 === 0) [state] = step(state, press(atMs));
    }
    expect(state.phase).toBe('feeding');
    expect(state.reached).toBe(4);
    expect(state.reckoning?.positionMm).toBeCloseTo(450, 0);
  });

  it('does not take a leap of the count for wood', () => {
    const { state } = feed(0.05, 200);
    const [next, effects] = step(state, { kind: 'moved', atMs: (state.reckoning?.atMs ?? 0) + 50, mm: 12_000 });
    expect(next.phase).toBe('feeding');
    expect(told(effects)).toEqual(['count-restarted']);
    expect(next.reached).toBe(2);
  });

  it('does not go on because somebody wants to hear the number again while the signal is lost', () => {
    const { state } = feed(0.05, 100);
    const [lost] = step(state, woken((state.reckoning?.travel?.heardAtMs ?? 0) + 500));
    expect(refusals(step(lost, press(9000, 'again'))[1])).toEqual(['not-feeding']);
  });

  it('carries the position on when the source begins its count anew', () => {
    const { state } = feed(0.05, 200);
    const [next, effects] = step(state, { kind: 'moved', atMs: (state.reckoning?.atMs ?? 0) + 50, mm: 3 });
    expect(told(effects)).toEqual(['count-restarted']);
    expect(next.phase).toBe('feeding');
    expect(next.reckoning?.positionMm).toBeCloseTo(202.5, 1);
  });

  it('tells when the stock runs on while stopped', () => {
    const { state } = feed(0.05, 200);
    const mm = 7000 + (state.reckoning?.positionMm ?? 0);
    const [stopped] = step(state, press(8000, 'stop'));
    const [, effects] = step(stopped, { kind: 'moved', atMs: 8800, mm: mm + 40 });
    expect(told(effects)).toEqual(['moved-while-stopped']);
  });

  it('is corrected by a press, which confirms the nearest mark instead of counting it twice', () => {
    const { state } = feed(0.05, 160);
    expect(state.reached).toBe(2);
    const [confirmed] = step(state, press(state.reckoning?.atMs ?? 0));
    expect(confirmed.reached).toBe(2);
    expect(confirmed.reckoning?.positionMm).toBeCloseTo(150, 2);
    const early = feed(0.05, 130).state;
    const [corrected] = step(early, press(early.reckoning?.atMs ?? 0));
    expect(corrected.reached).toBe(2);
    expect(corrected.reckoning?.positionMm).toBeCloseTo(150, 2);
  });
});
