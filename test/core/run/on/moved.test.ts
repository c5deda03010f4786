import { describe, expect, it } from 'vitest';
import type { RunEffect, RunEvent } from '../../../../server/core/run/engine/events.ts';
import type { RunState } from '../../../../server/core/run/engine/state.ts';
import { step } from '../../../../server/core/run/step.ts';
import { phrases } from '../../../../server/core/words/phrases.ts';
import { called, play, press, refusals, said, started, told, woken } from '../../../kit/playRun.ts';

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
