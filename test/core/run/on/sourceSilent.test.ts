import { expect, test } from 'vitest';
import type { RunEvent } from '../../../../server/core/run/engine/events.ts';
import { noticeSilence, silentAtMs } from '../../../../server/core/run/on/sourceSilent.ts';
import { FEED_BEGINS_MS, feedRun, startedAt0, steadyFeed } from '../../../kit/feedRun.ts';
import { smallSetup } from '../../../kit/runSetup.ts';

/** A count that speaks every so many ms, up to a time; the wood goes on at 0.03 mm/ms. */
function* countEvery(everyMs: number, untilMs: number): Generator<RunEvent> {
  yield startedAt0;
  for (let atMs = FEED_BEGINS_MS; atMs <= untilMs; atMs += everyMs)
    yield { kind: 'moved', atMs, mm: (atMs - FEED_BEGINS_MS) * 0.03 };
}
const lastOf = (everyMs: number, untilMs: number): number =>
  FEED_BEGINS_MS + everyMs * Math.floor((untilMs - FEED_BEGINS_MS) / everyMs);

test.each([
  ['fifty times a second', 20, 500],
  ['eight times a second', 125, 500],
  ['five times a second', 200, 800],
  ['twice a second', 500, 2000],
  ['once a second', 1000, 3000],
])(
  'a count that speaks %s is waited for by half a second, four readings or three seconds',
  (_, everyMs, patienceMs) => {
    const { state } = feedRun(smallSetup(), countEvery(everyMs, 8000));
    const lastMs = lastOf(everyMs, 8000);
    const silentMs = silentAtMs(state);
    expect(silentMs).toBeCloseTo(lastMs + patienceMs, 6);
    expect(noticeSilence(state, lastMs + patienceMs - 1)).toBeNull();
    expect(noticeSilence(state, lastMs + patienceMs)?.[0]).toMatchObject({ phase: 'lost', lost: { by: 'travel' } });
  },
);

test('before it is known how often it speaks, it is given three seconds', () => {
  const { state } = feedRun(smallSetup(), [startedAt0, { kind: 'moved', atMs: 5000, mm: 0 }]);
  expect(silentAtMs(state)).toBe(8000);
});

test('nothing is waited for while nothing is fed, nor where no count is there', () => {
  const { state } = feedRun(smallSetup(), steadyFeed(0.03, 100));
  expect(silentAtMs(state)).not.toBeNull();
  expect(silentAtMs({ ...state, phase: 'stopped' })).toBeNull();
  expect(silentAtMs(feedRun(smallSetup(), [startedAt0]).state)).toBeNull();
});
