/** What is said too late is not said to its end. Marks 150 mm apart, words of a second, a feed of 0.1 mm/ms: 1.5 s a mark. */
import { describe, expect, test } from 'vitest';
import { cutsLateCallAtMs } from '../../../../server/core/run/call/cutLateCall.ts';
import type { RunEvent } from '../../../../server/core/run/engine/events.ts';
import type { RunState } from '../../../../server/core/run/engine/state.ts';
import { expectClose } from '../../../kit/close.ts';
import { callsOf, FEED_BEGINS_MS, feedRun, missedOf, startedAt0, steadyFeed, toldOf } from '../../../kit/feedRun.ts';
import { degreeSetup, smallSetup } from '../../../kit/runSetup.ts';

const FEED = 0.1;
/** In the middle of the second interval, where the call for mark 3 is being said; `placeMm` has the wood at 200 mm. */
function speaking(overrides: Partial<RunState> = {}): RunState {
  const { state } = feedRun(smallSetup(), steadyFeed(FEED, 200));
  return {
    ...state,
    turningTo: 2,
    speaking: { id: 'late', to: 'everyone', text: 'bevel 12', mark: 3, deg: 12, startsAtMs: 5900, durationMs: 1000 },
    ...overrides,
  };
}
const NOW_MS = FEED_BEGINS_MS + 200 / FEED;
const MARK_3_MS = FEED_BEGINS_MS + 300 / FEED;

describe('a call whose words', () => {
  test('are over before its mark is left alone', () => {
    expect(cutsLateCallAtMs(speaking(), NOW_MS)).toBeNull();
  });

  test('would end behind its mark is cut when the mark may be there, with all of the doubt', () => {
    const late = speaking();
    const call = { ...(late.speaking as NonNullable<RunState['speaking']>), durationMs: 1500 };
    const byMs = cutsLateCallAtMs({ ...late, speaking: call }, NOW_MS) ?? Number.NaN;
    expect(byMs).toBeLessThanOrEqual(MARK_3_MS);
    expectClose(byMs, MARK_3_MS, 60, 'ms');
  });

  test('are heard late by the slowest ear are late by as much', () => {
    expect(cutsLateCallAtMs(speaking({ hearsAfterMs: 300 }), NOW_MS)).not.toBeNull();
  });

  test('are over already cannot be cut any more', () => {
    const late = speaking();
    const call = {
      ...(late.speaking as NonNullable<RunState['speaking']>),
      startsAtMs: NOW_MS - 3000,
      durationMs: 3000,
    };
    expect(cutsLateCallAtMs({ ...late, speaking: call }, NOW_MS)).toBeNull();
  });

  const tooLong = (): RunState => {
    const late = speaking();
    return { ...late, speaking: { ...(late.speaking as NonNullable<RunState['speaking']>), durationMs: 9000 } };
  };
  test.each<[string, (state: RunState) => RunState]>([
    [
      'are an order without a bevel',
      (state) => ({ ...state, speaking: { ...speakingOf(state), deg: undefined as never } }),
    ],
    [
      'name another mark than the one turned to',
      (state) => ({ ...state, speaking: { ...speakingOf(state), mark: 2 } }),
    ],
    [
      'are the first bevel’s: the wood waits for that',
      (state) => ({ ...state, turningTo: 0, speaking: { ...speakingOf(state), mark: 1 } }),
    ],
    ['name no mark, where the bevel is not called degree by degree', (state) => withoutMark(state)],
    ['are said while the run is stopped', (state) => ({ ...state, phase: 'stopped' })],
    [
      'are said on presses alone: nobody knows when the mark comes',
      (state) => ({ ...state, reckoning: { ...reckoningOf(state), by: 'press' } }),
    ],
    [
      'are said while the wood stands',
      (state) => ({ ...state, reckoning: { ...reckoningOf(state), speedMmPerMs: 0, speedSdMmPerMs: 0 } }),
    ],
    [
      'are said between scans while the feed is not known',
      (state) => ({ ...state, reckoning: { ...reckoningOf(state), by: 'scan', speedSdMmPerMs: 1 } }),
    ],
  ])('%s have no time by which they must be over', (_, change) => {
    expect(cutsLateCallAtMs(tooLong(), NOW_MS)).not.toBeNull();
    expect(cutsLateCallAtMs(change(tooLong()), NOW_MS)).toBeNull();
  });
});

const speakingOf = ({ speaking: call }: RunState): NonNullable<RunState['speaking']> => {
  if (call === null) throw new Error('nothing is being said');
  return call;
};
const reckoningOf = ({ reckoning }: RunState): NonNullable<RunState['reckoning']> => {
  if (reckoning === null) throw new Error('nothing is known of the place');
  return reckoning;
};
function withoutMark(state: RunState): RunState {
  const { mark: _, ...call } = speakingOf(state);
  return { ...state, speaking: call };
}

test('a figure of degree by degree must be over half the way on to the next one', () => {
  const fed = feedRun(degreeSetup(), steadyFeed(0.03, 300));
  const figure = withoutMark({
    ...fed.state,
    speaking: { ...speakingOf(speaking()), durationMs: 60_000, startsAtMs: 0 },
  });
  const nowMs = FEED_BEGINS_MS + 300 / 0.03;
  const byMs = cutsLateCallAtMs({ ...figure, stepByMm: 330 }, nowMs) ?? Number.NaN;
  expectClose(byMs, FEED_BEGINS_MS + 330 / 0.03, 150, 'ms');
  expect(cutsLateCallAtMs({ ...figure, stepByMm: null }, nowMs)).toBeNull();
});

/** The feed goes up to five times as much in the middle of the call for mark 3. */
function* hurried(): Generator<RunEvent> {
  yield startedAt0;
  let mm = 0;
  for (let atMs = FEED_BEGINS_MS; mm <= 601; atMs += 50) {
    yield { kind: 'moved', atMs, mm };
    mm += mm > 200 && mm < 330 ? 20 : 2;
  }
}

test('it is missed, the sawyer is told, and the next call is said whole', () => {
  const fed = feedRun(smallSetup(), hurried());
  const third = callsOf(fed).find(({ mark }) => mark === 3);
  const cut = fed.effects.find(({ effect }) => effect.kind === 'cut-off' && effect.id === third?.id);
  expect(missedOf(fed)).toEqual([3]);
  expect(toldOf(fed)).toContain('too-fast');
  expect(cut?.atMs).toBeLessThan((third?.startsAtMs ?? 0) + (third?.durationMs ?? 0));
  const next = callsOf(fed).find(({ mark }) => mark === 4);
  expect(next?.startsAtMs).toBeGreaterThanOrEqual(cut?.atMs ?? Number.POSITIVE_INFINITY);
});

test('what is called after it stands for itself', () => {
  expect(feedRun(smallSetup(), hurried()).state.givenUp).toBe(-1);
});
