/** Marks 150 mm apart; what the engine takes from the track, and what it must know beside it. */
import { describe, expect, test } from 'vitest';
import type { RunEvent } from '../../../../server/core/run/engine/events.ts';
import type { Reckoning, RunState } from '../../../../server/core/run/engine/state.ts';
import {
  atStation,
  believed,
  counted,
  goingOn,
  positionAt,
  spacingMm,
  standing,
  uncertaintyAt,
  withoutCount,
  withoutPlace,
} from '../../../../server/core/run/place/position.ts';
import { expectClose } from '../../../kit/close.ts';
import { FEED_BEGINS_MS, feedRun, startedAt0, steadyFeed } from '../../../kit/feedRun.ts';
import { smallSetup } from '../../../kit/runSetup.ts';

const started = (): RunState => feedRun(smallSetup(), [startedAt0]).state;
const of = ({ reckoning }: RunState): Reckoning => {
  if (reckoning === null) throw new Error('nothing is known of the place');
  return reckoning;
};
/** Counts at these times, on from a state. */
function countedAt(from: RunState, ...readings: readonly (readonly [atMs: number, mm: number])[]): RunState {
  let state = from;
  for (const [atMs, mm] of readings) state = { ...state, reckoning: counted(state, mm, atMs).reckoning };
  return state;
}
/** 30 mm/s, the last count at 100 mm. */
const counting = (): RunState => feedRun(smallSetup(), steadyFeed(0.03, 100)).state;
const LAST_MS = FEED_BEGINS_MS + 50 * Math.floor(100 / 0.03 / 50);
const scans: RunEvent[] = [1, 2, 3].map((mark) => ({
  kind: 'scanned',
  mark,
  offsetMm: 0,
  atMs: 4000 + 5000 * (mark - 1),
}));
const scanned = (): RunState => feedRun(smallSetup(), [startedAt0, ...scans]).state;

describe('a count', () => {
  test('begins at the first mark, or where a press or a scan has placed the wood', () => {
    expect(of(countedAt(started(), [4000, 777])).positionMm).toBe(0);
    const placed = atStation(started(), 1, 5, 4000, 'scan').state;
    expectClose(of(countedAt(placed, [4000, 777])).positionMm, 155, 1e-6, 'mm');
  });

  test('tells how often it speaks: the first gap, then a fifth of each new one', () => {
    const everyMs = (...readings: readonly (readonly [number, number])[]) =>
      of(countedAt(started(), ...readings)).travel?.everyMs;
    expect(everyMs([4000, 0])).toBeNull();
    expect(everyMs([4000, 0], [4100, 3])).toBe(100);
    expect(everyMs([4000, 0], [4100, 3], [4300, 9])).toBe(120);
    expect(everyMs([4000, 0], [4100, 3], [4300, 9], [4320, 9.6])).toBe(100);
  });

  test('is new at its first reading, and for the one after it', () => {
    const sinceMs = (...readings: readonly (readonly [number, number])[]) =>
      of(countedAt(started(), ...readings)).travel?.sinceMs;
    expect(sinceMs([4000, 0])).toBe(4000);
    expect(sinceMs([4000, 0], [4100, 3])).toBe(4100);
    expect(sinceMs([4000, 0], [4100, 3], [4200, 6])).toBe(4100);
  });

  test('that its source began anew is new again', () => {
    const { reckoning, verdict } = counted(counting(), 100 - 5000, LAST_MS + 50);
    expect(verdict).toBe('restarted');
    expect(reckoning.travel).toMatchObject({ everyMs: null, sinceMs: LAST_MS + 50 });
  });

  test('has told a speed once it is sure of it by a tenth', () => {
    const early = of(countedAt(started(), [4000, 0], [4050, 1.5]));
    expect(early.speedMmPerMs).toBeNull();
    expectClose(of(counting()).speedMmPerMs ?? Number.NaN, 0.03, 0.001, 'mm/ms');
  });

  test('keeps the farthest place when the wood is pulled back; a mark puts that right too', () => {
    const back = countedAt(counting(), [LAST_MS + 50, 95], [LAST_MS + 100, 92]);
    expect(of(back).farthestMm).toBeGreaterThan(of(back).positionMm + 3);
    expect(of(atStation(back, 0, 50, LAST_MS + 150, 'press').state).farthestMm).toBeLessThan(100);
  });
});

describe('between two pieces of evidence', () => {
  test('a count is carried on for half a second and no longer', () => {
    const reckoning = of(counting());
    const moved = (ms: number): number => positionAt(reckoning, LAST_MS + ms) - reckoning.positionMm;
    expectClose(moved(200), 6, 0.3, 'mm');
    expectClose(moved(500), 15, 0.6, 'mm');
    expect(moved(5000)).toBe(moved(500));
    expect(uncertaintyAt(reckoning, LAST_MS + 5000)).toBe(uncertaintyAt(reckoning, LAST_MS + 500));
  });

  test('marks alone are carried on without limit, and the doubt grows', () => {
    const reckoning = of(scanned());
    expectClose(positionAt(reckoning, 14_000 + 3000), 390, 3, 'mm');
    expect(uncertaintyAt(reckoning, 17_000)).toBeGreaterThan(uncertaintyAt(reckoning, 15_000));
  });

  test('wood whose speed is not known stays where it was', () => {
    const early = of(countedAt(started(), [4000, 0], [4050, 1.5]));
    expect(positionAt(early, 4300)).toBe(early.positionMm);
  });
});

describe('a feed that a count has not told yet', () => {
  test('is believed to be what is usual', () => {
    expectClose(believed(of(countedAt(started(), [4000, 0]))).speedMmPerMs ?? Number.NaN, 0.05, 1e-9, 'mm/ms');
  });

  test('is not believed of wood that stands; one that is told is not changed', () => {
    expect(believed(of(standing(counting(), LAST_MS))).speedMmPerMs).toBeNull();
    const told = of(counting());
    expect(believed(told)).toBe(told);
  });
});

describe('the feed stopped and going on', () => {
  test('standing wood has no speed, and what was carried on since the last count is nothing to be pulled back from', () => {
    const stopped = of(standing(counting(), LAST_MS + 400));
    expect(stopped.speedMmPerMs).toBeNull();
    expect(stopped.farthestMm).toBe(of(counting()).positionMm);
  });

  test('marks alone: the farthest is where it is believed to be', () => {
    const stopped = of(standing(scanned(), 15_000));
    expect(stopped.farthestMm).toBe(stopped.positionMm);
  });

  test('going on, the pause was not the source’s silence, and its speed is asked anew', () => {
    const on = of(goingOn(standing(counting(), LAST_MS), 60_000));
    expect(on.travel).toMatchObject({ heardAtMs: 60_000, everyMs: null });
    expect(on.speedMmPerMs).toBeNull();
  });

  test('marks alone: it goes on at its old speed', () => {
    const on = of(goingOn(standing(scanned(), 15_000), 20_000));
    expectClose(on.speedMmPerMs ?? Number.NaN, 0.03, 0.001, 'mm/ms');
  });
});

describe('what is believed no longer', () => {
  test('without its count a run is on the pedal, and the place stays', () => {
    const { by, travel, positionMm } = of(withoutCount(counting()));
    expect({ by, travel, positionMm }).toEqual({ by: 'press', travel: null, positionMm: of(counting()).positionMm });
    const onScans = scanned();
    expect(withoutCount(onScans)).toBe(onScans);
  });

  test('without its place a run on scans knows nothing, one on the pedal keeps what it was told', () => {
    expect(withoutPlace({ ...scanned(), guessed: 1 })).toMatchObject({ reckoning: null, guessed: 0 });
    const pressed = feedRun(smallSetup(), [startedAt0, { kind: 'pressed', gesture: 'next', atMs: 3000 }]).state;
    expect(withoutPlace(pressed).reckoning).toEqual(pressed.reckoning);
  });
});

test('the spacing is that behind the next mark, or the first one', () => {
  const setup = smallSetup();
  const uneven = { ...setup, stations: setup.stations.map((each, i) => ({ ...each, positionMm: 10 * i * i })) };
  // 0, 10, 40, 90, 160.
  const at = (reached: number): number => spacingMm({ ...started(), setup: uneven, reached });
  expect([0, 1, 2, 3, 4, 5].map(at)).toEqual([10, 10, 30, 50, 70, 70]);
});
