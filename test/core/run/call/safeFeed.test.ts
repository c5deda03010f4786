import { describe, expect, test } from 'vitest';
import { fasterThan, isFasterThanSafe, safeFeed } from '../../../../server/core/run/call/safeFeed.ts';
import type { RunEvent } from '../../../../server/core/run/engine/events.ts';
import type { RunSetup, RunState } from '../../../../server/core/run/engine/state.ts';
import { fold } from '../../../../server/core/run/fold.ts';
import { expectClose } from '../../../kit/close.ts';
import { degreeSetup, smallSetup } from '../../../kit/runSetup.ts';

const start: RunEvent = { kind: 'started', atMs: 0, withoutSound: true };
const pressed = (atMs: number): RunEvent => ({ kind: 'pressed', gesture: 'next', atMs });
const travel = (fromMs: number, toMs: number, mmPerMs = 0.05): RunEvent[] =>
  Array.from({ length: Math.floor((toMs - fromMs) / 50) + 1 }, (_, index) => ({
    kind: 'moved',
    atMs: fromMs + 50 * index,
    mm: mmPerMs * 50 * index,
  }));

test('nothing is safe or unsafe while nothing is fed', () => {
  expect(safeFeed(fold(smallSetup(), []), 0, 0)).toBeNull();
});

/** 150 mm for a second of words, 0.35 s of reaction and 2 degrees at 1.4 a second: worked by hand, 150 / (1000 + 350 + 1428.6). */
test('in a fresh interval: what words, reaction and wheel leave of it', () => {
  const state = fold(smallSetup(), [start, pressed(5000)]);
  expectClose(safeFeed(state, 0, 5000) ?? Number.NaN, 150 / (1000 + 350 + 2000 / 1.4), 1e-9, 'mm/ms');
});

test('words that are over and a wheel that had its time limit nothing any more; the next interval does', () => {
  const state = fold(smallSetup(), [start, pressed(5000)]);
  // From mark 3 to mark 4 only one degree is turned.
  const next = 150 / (1000 + 350 + 2000 / 1.4);
  expectClose(safeFeed(state, 140, 9000) ?? Number.NaN, next, 1e-9, 'mm/ms');
});

test('a turn that is late makes the feed that is safe slow', () => {
  const state = fold(smallSetup(), [start, pressed(5000)]);
  expectClose(safeFeed(state, 120, 6000) ?? Number.NaN, 30 / (350 + 2000 / 1.4), 1e-9, 'mm/ms');
});

test('a hand that follows is held by its wheel alone: 1.4 degrees a second on 2 degrees in 150 mm', () => {
  const setup = smallSetup({ routine: 'following' });
  const state = fold(setup, [start, ...travel(4000, 5000)]);
  expectClose(safeFeed(state, 50, 5000) ?? Number.NaN, 1.4 / 1000 / (2 / 150), 1e-9, 'mm/ms');
});

/** From 12 degrees back by 1 in 150 mm, a quarter forgiven: the first place that counts is 40 mm on, and the wheel's looseness comes first. */
test('a hand that follows has the looseness of its wheel to turn through where the bevel turns back', () => {
  const setup = smallSetup({ routine: 'following', backlashTurns: 0.5, degreesPerTurn: 2 });
  const state = fold(setup, [start, ...travel(4000, 5000)]);
  const degPerMs = (setup.crew.turnsPerS * 2) / 1000;
  expectClose(safeFeed(state, 300, 5000) ?? Number.NaN, (40 * degPerMs) / (40 / 150 - 0.25 + 1), 1e-9, 'mm/ms');
});

test('no feed is safe that the saw does not take, however well the crew keeps up', () => {
  const state = fold(smallSetup({ sawFeedMPerMin: 1.2 }), [start, pressed(5000)]);
  expectClose(safeFeed(state, 0, 5000) ?? Number.NaN, 0.02, 1e-12, 'mm/ms');
  const slowCrew = fold(smallSetup({ sawFeedMPerMin: 60 }), [start, pressed(5000)]);
  expectClose(safeFeed(slowCrew, 0, 5000) ?? Number.NaN, 150 / (1000 + 350 + 2000 / 1.4), 1e-9, 'mm/ms');
});

test.each([
  [1.2, 'The saw does not take so much in this depth. Ease the feed.'],
  [undefined, null],
])('a crew that keeps up is asked for a slower feed where the saw takes only %s m/min', (sawFeedMPerMin, message) => {
  const setup = smallSetup({ routine: 'following', ...(sawFeedMPerMin === undefined ? {} : { sawFeedMPerMin }) });
  const state = fold(setup, [start, ...travel(0, 3000, 0.03)]);
  expect(state.notice?.message ?? null).toBe(message);
});

describe('of the marks that come', () => {
  const TURN_MS = 2000 / 1.4;
  /** A last turn of 20 degrees, which alone is slow. */
  function steepAtTheEnd(): RunSetup {
    const setup = smallSetup();
    const stations = setup.stations.map((each, i) => (i === 4 ? { ...each, tiltDeg: 31, callDeg: 31 } : each));
    return { ...setup, stations };
  }
  test('two beyond the next one are looked at, and no farther one', () => {
    const state = fold(steepAtTheEnd(), [start, pressed(5000)]);
    expectClose(safeFeed(state, 0, 5000) ?? Number.NaN, 150 / (1350 + TURN_MS), 1e-9, 'mm/ms');
    const on = fold(steepAtTheEnd(), [start, pressed(5000), pressed(9000)]);
    expectClose(safeFeed(on, 150, 9000) ?? Number.NaN, 150 / (1350 + 20_000 / 1.4), 1e-9, 'mm/ms');
  });

  test('one nearer than a centimetre is as good as there', () => {
    const state = fold(smallSetup(), [start, pressed(5000)]);
    expectClose(safeFeed(state, 149, 5000) ?? Number.NaN, 10 / (1350 + TURN_MS), 1e-9, 'mm/ms');
  });
});

describe('turning evenly', () => {
  /** 50 mm behind mark 2, counted every 50 ms; mark 3 has been called and heard. */
  function turning(overrides: Partial<RunState> = {}, longCallMs = 1000): RunState {
    const setup = smallSetup({ routine: 'even turning' });
    const durationsMs = { ...setup.durationsMs, 'bevel 11': longCallMs };
    const state = fold({ ...setup, durationsMs }, [start, ...travel(4000, 8000)]);
    return { ...state, reached: 2, turningTo: 2, heard: 2, speaking: null, ...overrides };
  }

  test('each turn has its whole interval, in which the next call must be said as well', () => {
    // From mark 4 to 5 two degrees; from 3 to 4 one degree, but a call of a second and a pause.
    expectClose(safeFeed(turning(), 200, 8000) ?? Number.NaN, 150 / (2000 / 1.4), 1e-9, 'mm/ms');
    const words = 150 / (1900 + 60);
    expectClose(safeFeed(turning({}, 1900), 200, 8000) ?? Number.NaN, words, 1e-9, 'mm/ms');
  });

  test('a call and its turn have the two intervals before their mark', () => {
    // 300 mm for words of 4 s, a reaction, a degree, and what a count notices late; in an interval the words would have less.
    const state = turning({ reached: 3, turningTo: 3 });
    const wordsOf5 = { ...state.setup.durationsMs, 'bevel 9': 4000 };
    const limit = safeFeed({ ...state, setup: { ...state.setup, durationsMs: wordsOf5 } }, 310, 8000) ?? Number.NaN;
    expectClose(limit, Math.min(150 / 4060, (600 - 310) / (4000 + 350 + 2000 / 1.4)), 1e-9, 'mm/ms');
  });

  test('of a call that is still being said there is only to be heard and reacted to', () => {
    const call = {
      id: 'c',
      to: 'tilt hand',
      text: 'bevel 12',
      mark: 3,
      deg: 12,
      startsAtMs: 7800,
      durationMs: 1000,
    } as const;
    expectClose(safeFeed(turning({ speaking: call }), 280, 8000) ?? Number.NaN, 20 / (800 + 350), 1e-9, 'mm/ms');
  });
});

test('degree by degree there must be time for the words of a whole degree between two of them: 75 mm', () => {
  const state = fold(degreeSetup(), [start, ...travel(4000, 4500, 0.02)]);
  expectClose(safeFeed(state, 10, 4500) ?? Number.NaN, 75 / 960, 1e-9, 'mm/ms');
});

describe('a tilt that is measured', () => {
  const setup = smallSetup({ routine: 'following' });
  /** At 50 mm 8.67 degrees are wanted. */
  const behind = (agoMs: number): number => {
    const state = fold(setup, [start, ...travel(4000, 5000)]);
    return safeFeed({ ...state, tilt: { deg: 8 + 2 / 3 - 1, atMs: 5000 - agoMs } }, 50, 5000) ?? Number.NaN;
  };

  test('tells how far the hand is behind, a quarter of a degree forgiven', () => {
    expectClose(behind(100), (10 * 1.4) / 1000 / (1 + 10 * (2 / 150) - 0.25), 1e-9, 'mm/ms');
  });

  test('half a second ago says nothing of now', () => {
    expect(behind(499)).toBe(behind(100));
    expectClose(behind(500), 1.4 / 1000 / (2 / 150), 1e-9, 'mm/ms');
  });
});

describe('too fast', () => {
  const SAFE = 1.4 / 1000 / (2 / 150);
  function at(mmPerMs: number | null, sdMmPerMs = 0, sawFeedMPerMin?: number): RunState {
    const setup = smallSetup({ routine: 'following', ...(sawFeedMPerMin === undefined ? {} : { sawFeedMPerMin }) });
    const state = fold(setup, [start, ...travel(4000, 5000)]);
    const { reckoning } = state;
    if (reckoning === null) throw new Error('no place');
    return { ...state, reckoning: { ...reckoning, speedMmPerMs: mmPerMs, speedSdMmPerMs: sdMmPerMs } };
  }

  test('is only what surely is, whatever the doubt in the speed', () => {
    expect(fasterThan(at(0.99 * SAFE), 5000)).toBeNull();
    expect(fasterThan(at(1.01 * SAFE), 5000)).toBe('crew');
    expect(fasterThan(at(1.1 * SAFE, 0.06 * SAFE), 5000)).toBeNull();
    expect(fasterThan(at(null), 5000)).toBeNull();
    expect(fasterThan({ ...at(1.5 * SAFE), phase: 'stopped' }, 5000)).toBeNull();
    expect([0.99, 1.01].map((share) => isFasterThanSafe(at(share * SAFE), 5000))).toEqual([false, true]);
  });

  test('for the saw goes before for the crew', () => {
    // 3 m/min is 0.05 mm/ms.
    expect(fasterThan(at(0.051, 0, 3), 5000)).toBe('saw');
    expect(fasterThan(at(0.049, 0, 3), 5000)).toBeNull();
    expect(fasterThan(at(1.01 * SAFE, 0, 60), 5000)).toBe('crew');
  });
});
