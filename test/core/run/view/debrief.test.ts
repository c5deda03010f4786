/** What a debrief holds against the hand at the wheel, and what it does not. */
import { describe, expect, it } from 'vitest';
import type { RunEvent } from '../../../../server/core/run/engine/events.ts';
import { debriefOf, stretchesOf } from '../../../../server/core/run/view/debrief.ts';
import { smallSetup } from '../../../kit/runSetup.ts';

const MM_PER_MS = 0.05;
/** A wheel that stands wrong by so much is told of at once. */
const WRONG_DEG = 0;
const RIGHT_DEG = 10;

/** The stock is fed from 0 at 1000 ms on; each reading of travel may come with one of the tilt. */
const fed = (fromMs: number, toMs: number, deg: number | null): RunEvent[] =>
  Array.from({ length: Math.floor((toMs - fromMs) / 50) + 1 }, (_, index) => fromMs + 50 * index).flatMap(
    (atMs): RunEvent[] => [
      { kind: 'moved', atMs, mm: MM_PER_MS * (atMs - 1000) },
      ...(deg === null ? [] : [{ kind: 'tilted', atMs, deg } as const]),
    ],
  );
const start: RunEvent = { kind: 'started', atMs: 0, withoutSound: true };
const worstOf = (...events: readonly RunEvent[]): number =>
  Math.abs(debriefOf(smallSetup(), [start, ...events]).worst?.errorDeg ?? 0);

describe('the debrief', () => {
  it('counts what the hand did while it was guided', () => {
    expect(worstOf(...fed(1000, 4000, WRONG_DEG))).toBeGreaterThan(8);
  });

  it('counts no tilt that was told while the signal was lost, and none told after the last travel before it', () => {
    const silentFrom = 4000;
    const tilts = Array.from(
      { length: 40 },
      (_, index): RunEvent => ({ kind: 'tilted', atMs: silentFrom + 50 * (index + 1), deg: WRONG_DEG }),
    );
    const lost: RunEvent = { kind: 'woken', atMs: silentFrom + 600 };
    const events = [...fed(1000, silentFrom, RIGHT_DEG), ...tilts, lost].sort((a, b) => a.atMs - b.atMs);
    expect(worstOf(...events)).toBeLessThan(2.1);
  });

  it('counts no tilt of a page that was gone', () => {
    // Told last at 3000; the travel goes on to 4500, when nobody hears any more.
    const gone: RunEvent = { kind: 'signal-lost', lifeline: 'sound', detail: 'Nobody hears.', atMs: 4500 };
    const events = [...fed(1000, 2950, RIGHT_DEG), ...fed(3000, 3000, WRONG_DEG), ...fed(3050, 4500, null), gone];
    const debrief = debriefOf(smallSetup(), [start, ...events]);
    expect(debrief.trace.at(-1)).toMatchObject({ positionMm: 100 });
  });

  it('reckons no error over the stock that went by in a loss', () => {
    const gone: RunEvent = { kind: 'signal-lost', lifeline: 'sound', detail: 'Nobody hears.', atMs: 4000 };
    const resumed: RunEvent = { kind: 'resumed', atMs: 9000 };
    const before = fed(1000, 4000, WRONG_DEG);
    const without = debriefOf(smallSetup(), [start, ...before, gone]);
    const during = fed(4050, 8950, null);
    const after = fed(9050, 9100, 12);
    const debrief = debriefOf(smallSetup(), [start, ...before, gone, ...during, resumed, ...after]);
    expect(debrief.trace.filter(({ isAfterLoss }) => isAfterLoss)).toHaveLength(1);
    // The 250 mm in between, at some 12 degrees off, would have made it greater.
    expect(debrief.rmsErrorDeg).toBeLessThanOrEqual(without.rmsErrorDeg ?? 0);
  });
});

it('draws the trace as one line from loss to loss, each by its place', () => {
  const at = (positionMm: number, isAfterLoss = false) => ({
    positionMm,
    wantedDeg: 8,
    hadDeg: 8,
    ...(isAfterLoss ? { isAfterLoss } : {}),
  });
  const places = stretchesOf([at(0), at(20), at(10), at(400, true), at(410), at(420)]).map((stretch) =>
    stretch.map(({ positionMm }) => positionMm),
  );
  expect(places).toEqual([
    [0, 10, 20],
    [400, 410, 420],
  ]);
  expect(stretchesOf([])).toEqual([]);
});
