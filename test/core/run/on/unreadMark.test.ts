import { describe, expect, test } from 'vitest';
import type { RunEvent } from '../../../../server/core/run/engine/events.ts';
import type { Reckoning, RunState } from '../../../../server/core/run/engine/state.ts';
import { noticeUnreadMark, unreadAtMs } from '../../../../server/core/run/on/unreadMark.ts';
import { placeAt } from '../../../../server/core/track/placeAt.ts';
import { phrases } from '../../../../server/core/words/phrases.ts';
import { expectClose } from '../../../kit/close.ts';
import { callsOf, feedRun, missedOf, saidOf, startedAt0, toldOf } from '../../../kit/feedRun.ts';
import { smallSetup } from '../../../kit/runSetup.ts';

/** Marks 150 mm apart at 40 mm/s: one each 3.75 s. */
const EVERY_MS = 3750;
const scan = (mark: number): RunEvent => ({ kind: 'scanned', mark, offsetMm: 0, atMs: 4000 + (mark - 1) * EVERY_MS });
const scans = (...marks: readonly number[]): RunEvent[] => [startedAt0, ...marks.map(scan)];

test('a mark whose code is not read is guessed once it has surely passed, and the next call comes in time all the same', () => {
  const fed = feedRun(smallSetup(), scans(1, 2, 4, 5), 30_000);
  expect(toldOf(fed)).toContain('mark-guessed');
  expect(callsOf(fed).map(({ mark }) => mark)).toEqual([1, 2, 3, 4, 5]);
  for (const { mark = 0, startsAtMs, durationMs } of callsOf(fed).slice(1))
    expect(startsAtMs + durationMs).toBeLessThan(4000 + (mark - 1) * EVERY_MS);
  expect(fed.state.phase).toBe('finished');
});

test('a second one in a row is not guessed: the place is lost, and that is said', () => {
  const fed = feedRun(smallSetup(), scans(1, 2), 60_000);
  expect(fed.state.phase).toBe('lost');
  expect(saidOf(fed).at(-1)).toBe(phrases.signalLost);
  expect(callsOf(fed).map(({ mark }) => mark)).toEqual([1, 2, 3, 4]);
  // Mark 4 lies at 15,250 ms.
  expect(fed.effects.at(-1)?.atMs).toBeLessThan(15_250 + 4000);
});

test('the last mark, not read, ends the run', () => {
  const fed = feedRun(smallSetup(), scans(1, 2, 3, 4), 60_000);
  expect(fed.state.phase).toBe('finished');
  expect(saidOf(fed).at(-1)).toBe(phrases.runDone);
});

test('between the first and the second mark the feed is not known: a slow one is waited for', () => {
  expect(feedRun(smallSetup(), scans(1), 4000 + 20_000).state.phase).toBe('feeding');
  expect(feedRun(smallSetup(), scans(1), 4000 + 40_000).state.phase).toBe('lost');
});

test('while the wood stands nothing is overdue', () => {
  const stop: RunEvent = { kind: 'stopped', by: 'page', atMs: 8000 };
  expect(feedRun(smallSetup(), [...scans(1, 2), stop], 600_000).state.phase).toBe('stopped');
});

const reckoningOf = ({ reckoning }: RunState): Reckoning => {
  if (reckoning === null) throw new Error('nothing is known of the place');
  return reckoning;
};

describe('when a mark has surely passed', () => {
  const sdsPast = (marks: readonly number[], markMm: number): number => {
    const { state } = feedRun(smallSetup(), scans(...marks));
    const place = placeAt(reckoningOf(state).track, unreadAtMs(state) ?? Number.NaN);
    return ((place?.positionMm ?? Number.NaN) - markMm) / (place?.sdMm ?? Number.NaN);
  };

  test('the place is past it by a standard deviation; by a quarter at the last one, behind which nothing is turned to', () => {
    expectClose(sdsPast([1, 2, 3], 450), 1, 0.01, 'sd');
    expectClose(sdsPast([1, 2, 3, 4], 600), 0.25, 0.01, 'sd');
  });

  test('it is guessed then, not before, and counted', () => {
    const { state } = feedRun(smallSetup(), scans(1, 2, 3));
    const atMs = unreadAtMs(state) ?? Number.NaN;
    expect(noticeUnreadMark(state, atMs - 1)).toBeNull();
    expect(noticeUnreadMark(state, atMs)?.[0]).toMatchObject({ phase: 'feeding', reached: 4, guessed: 1 });
    expect(noticeUnreadMark({ ...state, guessed: 1 }, atMs)?.[0]).toMatchObject({ phase: 'lost' });
  });

  test('one that was never called is missed in the record; one that was called is not', () => {
    const { state } = feedRun(smallSetup(), scans(1, 2, 3));
    const at = (turningTo: number): string[] => {
      const quiet = { ...state, turningTo, heard: turningTo, speaking: null };
      const effects = noticeUnreadMark(quiet, unreadAtMs(quiet) ?? Number.NaN)?.[1] ?? [];
      return effects.flatMap((effect) => (effect.kind === 'missed' ? [`${effect.mark}`] : []));
    };
    expect(at(2)).toEqual(['4']);
    expect(at(3)).toEqual([]);
    expect(missedOf(feedRun(smallSetup(), scans(1, 2, 4, 5), 30_000))).toEqual([]);
  });

  test('nothing is waited for behind the last mark, nor on presses or a count', () => {
    const { state } = feedRun(smallSetup(), scans(1, 2, 3));
    expect(unreadAtMs({ ...state, reached: 5 })).toBeNull();
    for (const by of ['press', 'travel'] as const)
      expect(unreadAtMs({ ...state, reckoning: { ...reckoningOf(state), by } })).toBeNull();
    expect(unreadAtMs({ ...state, reckoning: { ...reckoningOf(state), speedMmPerMs: null } })).toBeNull();
  });
});

describe('patience', () => {
  /** The next mark is expected in so many ms, and the track does not see it pass. */
  function expectedIn(ms: number): RunState {
    const { stations, ...rest } = smallSetup();
    const far = stations.map((each, i) => (i === 3 ? { ...each, positionMm: 100_000 } : each)).slice(0, 4);
    const { state } = feedRun({ ...rest, stations: far }, scans(1, 2, 3));
    const exact = { positionMm: 100_000 - 0.04 * ms, speedMmPerMs: 0.04, speedSdMmPerMs: 0, uncertaintyMm: 0 };
    return { ...state, reckoning: { ...reckoningOf(state), ...exact } };
  }
  const patienceMs = (state: RunState): number => (unreadAtMs(state) ?? Number.NaN) - reckoningOf(state).atMs;

  test('lasts three times what the next mark should take, and no less than ten seconds', () => {
    expectClose(patienceMs(expectedIn(5000)), 15_000, 1e-6, 'ms');
    expectClose(patienceMs(expectedIn(1000)), 10_000, 1e-6, 'ms');
  });

  test('that is over loses the place, and no mark is guessed', () => {
    const state = expectedIn(5000);
    expect(noticeUnreadMark(state, unreadAtMs(state) ?? Number.NaN)?.[0]).toMatchObject({
      phase: 'lost',
      lost: { by: 'travel' },
    });
  });

  test('lasts half a minute from the first mark to the second', () => {
    expect(patienceMs(feedRun(smallSetup(), scans(1)).state)).toBe(30_000);
  });
});
