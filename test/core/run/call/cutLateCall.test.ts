/** What is said too late is not said to its end. Marks 150 mm apart, words of a second, a feed of 0.1 mm/ms: 1.5 s a mark. */
import { describe, expect, test } from 'vitest';
import { cutLateCall, cutsLateCallAtMs, withoutLateCall } from '../../../../server/core/run/call/cutLateCall.ts';
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

  test('are for the second mark is cut as well: only the first bevel is waited for', () => {
    const late = speaking();
    const call = { ...speakingOf(late), mark: 2, deg: 10, durationMs: 9000 };
    const at50 = feedRun(smallSetup(), steadyFeed(FEED, 50)).state;
    const nowMs = FEED_BEGINS_MS + 50 / FEED;
    const byMs = cutsLateCallAtMs({ ...at50, turningTo: 1, speaking: { ...call, startsAtMs: nowMs } }, nowMs);
    expectClose(byMs ?? Number.NaN, FEED_BEGINS_MS + 150 / FEED, 60, 'ms');
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
  // Not before; and then no mark is missed, but the feed is too fast.
  const late = { ...figure, stepByMm: 330 };
  expect(cutLateCall(late, byMs - 1)).toBeNull();
  const kinds = cutLateCall(late, byMs)?.[1].map(({ kind }) => kind) ?? [];
  expect(kinds.slice(0, 2)).toEqual(['cut-off', 'tell']);
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

describe('what is still being said of a mark that is at the blade', () => {
  /** The call for a station, a tenth of a second before its end, with so many marks at the blade. */
  function saidWhenReached(index: number, reached: number, overrides: Partial<RunState> = {}): RunState {
    const state = speaking();
    const { mark, callDeg } = state.setup.stations[index] ?? { mark: 0, callDeg: 0 };
    const call = { ...speakingOf(state), mark, deg: callDeg, startsAtMs: NOW_MS - 900 };
    return { ...state, turningTo: index, reached, heard: index - 1, speaking: call, ...overrides };
  }
  const kinds = (state: RunState): string[] => withoutLateCall(state, NOW_MS)[1].map(({ kind }) => kind);

  test.each([1, 2, 4])('is not spoken on, is missed, and the sawyer is told: station %s', (index) => {
    const state = saidWhenReached(index, index + 1);
    const [now, effects] = withoutLateCall(state, NOW_MS);
    expect(effects).toMatchObject([
      { kind: 'cut-off', id: 'late' },
      { kind: 'missed', mark: index + 1 },
      { kind: 'tell', notice: { code: 'too-fast', mark: Math.min(index + 2, 5) } },
    ]);
    expect(now).toMatchObject({ speaking: null, givenUp: index });
  });

  test.each<[string, RunState]>([
    ['its mark is not there yet', saidWhenReached(2, 2)],
    ['it is the first bevel', saidWhenReached(0, 1)],
    [
      'its words are over',
      saidWhenReached(2, 3, { speaking: { ...speakingOf(speaking()), startsAtMs: NOW_MS - 1000 } }),
    ],
    ['it is of another mark', saidWhenReached(2, 3, { turningTo: 1 })],
    ['nothing is being said', saidWhenReached(2, 3, { speaking: null })],
    ['it is no call of a mark', withoutMark(saidWhenReached(2, 3))],
  ])('is left alone where %s', (_, state) => {
    expect(withoutLateCall(state, NOW_MS)).toEqual([state, []]);
  });

  test('is cut, but nothing is missed and nobody blamed, where it was heard before and only said again', () => {
    expect(kinds(saidWhenReached(2, 3, { heard: 2 }))).toEqual(['cut-off']);
  });
});
