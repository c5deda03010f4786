import { expect, test } from 'vitest';
import { safeFeed } from '../../../../server/core/run/call/safeFeed.ts';
import type { RunEvent } from '../../../../server/core/run/engine/events.ts';
import { fold } from '../../../../server/core/run/fold.ts';
import { expectClose } from '../../../kit/close.ts';
import { smallSetup } from '../../../kit/runSetup.ts';

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
