/** The times that calls are reckoned by, worked by hand: wood at 100 mm that goes at 50 mm/s, known to 3 mm and 4 mm/s. */
import { describe, expect, test } from 'vitest';
import {
  arrivalMs,
  crewMs,
  doubtMs,
  hadTimeToTell,
  heardOutMs,
  isSpeedKnown,
  lastStartMs,
  latestMs,
  marginMs,
  noticedAfterMs,
  surelyFasterThan,
  turnMs,
  wordsMs,
} from '../../../../server/core/run/call/callTiming.ts';
import type { Reckoning, RunState } from '../../../../server/core/run/engine/state.ts';
import { expectClose } from '../../../kit/close.ts';
import { feedRun, steadyFeed } from '../../../kit/feedRun.ts';
import { smallSetup } from '../../../kit/runSetup.ts';

const state: RunState = { ...feedRun(smallSetup(), steadyFeed(0.05, 100)).state, speaking: null };
if (state.reckoning === null) throw new Error('no place');
const AT_MS = 10_000;
const wood: Reckoning = {
  ...state.reckoning,
  by: 'travel',
  atMs: AT_MS,
  positionMm: 100,
  speedMmPerMs: 0.05,
  speedSdMmPerMs: 0.004,
  uncertaintyMm: 3,
};
/** 50 mm on: in a second the speed's doubt makes 4 mm, with the place's 3 mm 5 mm, or 100 ms. */
const PLACE_MM = 150;
const SD_MS = 100;

describe('where a place will be at the blade', () => {
  test('goes by the speed of now', () => {
    expect(arrivalMs(wood, PLACE_MM)).toBe(AT_MS + 1000);
    expect(arrivalMs(wood, 90)).toBe(AT_MS - 200);
  });

  test.each([
    ['travel', 2],
    ['press', 2],
    ['scan', 1],
  ] as const)('it may come earlier, on %s, by %s standard deviations', (by, sds) => {
    expectClose(doubtMs({ ...wood, by }, AT_MS + 1000), sds * SD_MS, 1e-9, 'ms');
    expectClose(latestMs({ ...wood, by }, PLACE_MM), AT_MS + 1000 - sds * SD_MS, 1e-9, 'ms');
  });

  test('what has passed already is doubtful by its place alone', () => {
    expectClose(doubtMs(wood, AT_MS - 500), 2 * 60, 1e-9, 'ms');
  });

  test('wood that hardly moves is doubtful by what it would be at 2 mm/s', () => {
    expectClose(doubtMs({ ...wood, speedMmPerMs: 0, speedSdMmPerMs: 0 }, AT_MS), (2 * 3) / 0.002, 1e-6, 'ms');
  });

  test('from a speed that is not known nothing better can be said than its mean', () => {
    expect(latestMs({ ...wood, speedSdMmPerMs: 0.016 }, PLACE_MM)).toBe(AT_MS + 1000);
  });
});

test('a speed is known to three tenths of it', () => {
  expect(isSpeedKnown({ ...wood, speedMmPerMs: 1, speedSdMmPerMs: 0.3 })).toBe(true);
  expect(isSpeedKnown({ ...wood, speedMmPerMs: 1, speedSdMmPerMs: 0.31 })).toBe(false);
  expect(isSpeedKnown({ ...wood, speedMmPerMs: null, speedSdMmPerMs: 0 })).toBe(false);
});

describe('a call', () => {
  test.each([
    ['travel', 0.2],
    ['scan', 2],
    ['press', 2],
  ] as const)('begins earlier, on %s, by 20 ms and %s standard deviations', (by, sds) => {
    expectClose(marginMs({ ...wood, by }, AT_MS + 1000), 20 + sds * SD_MS, 1e-9, 'ms');
  });

  test('must begin by when its words are over with all of the doubt, and 20 ms', () => {
    expectClose(lastStartMs(state, wood, PLACE_MM, 'bevel 10'), AT_MS + 1000 - 2 * SD_MS - 1000 - 20, 1e-9, 'ms');
  });

  test('takes the crew its words in the slowest ear, a reaction and the wheel from the figure before', () => {
    const late = { ...state, hearsAfterMs: 180 };
    expect(wordsMs(late, 'bevel 12')).toBe(1180);
    expectClose(crewMs(late, 2, 1), 1180 + 350 + 2000 / 1.4, 1e-9, 'ms');
    expectClose(crewMs(late, 2, 0), 1180 + 350 + 4000 / 1.4, 1e-9, 'ms');
  });

  test('can follow another one after a pause of 60 ms in the slowest ear', () => {
    const call = { id: 'c', to: 'tilt hand', text: 'bevel 10', startsAtMs: 7000, durationMs: 1000 } as const;
    expect(heardOutMs({ ...state, hearsAfterMs: 180, speaking: call })).toBe(8000 + 180 + 60);
    expect(heardOutMs(state)).toBeNull();
  });
});

test('a turn takes the looseness with it where its way is another than that of the turn before', () => {
  const loose = { ...state, setup: { ...state.setup, backlashTurns: 0.5 } };
  // 10 to 12 goes on; 12 to 11 turns back: half a turn at 0.7 a second.
  expectClose(turnMs(loose, 1, 2), 2000 / 1.4, 1e-9, 'ms');
  expectClose(turnMs(loose, 2, 3), 1000 / 1.4 + 500 / 0.7, 1e-9, 'ms');
  expectClose(turnMs(loose, 3, 4), 2000 / 1.4, 1e-9, 'ms');
});

test('the feed is surely no slower than twice its standard deviation under what it seems', () => {
  expectClose(surelyFasterThan(wood), 0.042, 1e-12, 'mm/ms');
  expectClose(surelyFasterThan({ ...wood, by: 'scan' }), 0.046, 1e-12, 'mm/ms');
  expect(surelyFasterThan({ ...wood, speedMmPerMs: null, speedSdMmPerMs: 0 })).toBe(0);
});

test('a count tells of a place with its next reading; a mark at once', () => {
  expectClose(noticedAfterMs(state), 50, 1e-6, 'ms');
  expect(noticedAfterMs({ ...state, reckoning: { ...wood, travel: null } })).toBe(0);
});

test('a count has had time to tell its speed after seven tenths of a second; where there is none there is nothing to wait for', () => {
  const { travel } = wood;
  if (travel === null) throw new Error('no count');
  const since = (ms: number): Reckoning => ({ ...wood, travel: { ...travel, sinceMs: AT_MS - ms } });
  expect([700, 701].map((ms) => hadTimeToTell(since(ms)))).toEqual([false, true]);
  expect(hadTimeToTell({ ...wood, travel: null })).toBe(true);
});
