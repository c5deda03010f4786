import { expect, test } from 'vitest';
import type { RunEvent } from '../../../../server/core/run/engine/events.ts';
import { phrases } from '../../../../server/core/words/phrases.ts';
import { callsOf, feedRun, saidOf, startedAt0, toldOf } from '../../../kit/feedRun.ts';
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
