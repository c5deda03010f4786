import { describe, expect, it } from 'vitest';
import type { RunEvent } from '../../../server/core/run/engine/events.ts';
import { initialState } from '../../../server/core/run/engine/initialState.ts';
import { step } from '../../../server/core/run/step.ts';
import { phrases } from '../../../server/core/words/phrases.ts';
import { called, play, press, refusals, said, scan, started, told, woken } from '../../kit/playRun.ts';
import { smallSetup } from '../../kit/runSetup.ts';

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
    expect(effects.filter((effect) => effect.kind === 'missed')).toMatchObject([{ mark: 3 }, { mark: 4 }]);
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
