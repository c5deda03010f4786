/** What the boards show stands still long enough to be read, and their clock is the server's. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { HeldSign } from '../../client/kit/figures/minimumShown.ts';
import { StillFigure } from '../../client/kit/figures/steadyFigure.ts';
import { SafeFeedWatch } from '../../client/kit/figures/useSafeFeed.ts';
import { ServerClock } from '../../client/kit/link/serverClock.ts';

/** A shop's wireless line. */
const JITTER_MS = 100;

describe('what must be read stands still', () => {
  it('a figure is within half a step and its margin of a slow value, and changes no more often than it can be read', () => {
    const walk = fc.array(fc.double({ min: -0.004, max: 0.004, noNaN: true }), { minLength: 100, maxLength: 600 });
    fc.assert(
      fc.property(walk, (steps) => {
        const still = new StillFigure({ step: 0.5, margin: 0.1, holdMs: 300, round: 'nearest' });
        let value = 10;
        let [shown, sinceMs] = [still.at(value, 0), 0];
        for (const [index, step] of steps.entries()) {
          const nowMs = (index + 1) * 16;
          value += step;
          const figure = still.at(value, nowMs);
          expect(Math.abs(figure - value)).toBeLessThanOrEqual(0.3 + 0.004 * 20);
          if (figure === shown) continue;
          expect(sinceMs === 0 || nowMs - sinceMs >= 300).toBe(true);
          [shown, sinceMs] = [figure, nowMs];
        }
      }),
    );
  });

  it('a leap is told at once: a figure that is far off is not read to its end', () => {
    const still = new StillFigure({ step: 0.5, margin: 0.1, holdMs: 300, round: 'nearest' });
    expect(still.at(2, 0)).toBe(2);
    expect(still.at(2.9, 50)).toBe(2);
    expect(still.at(6.2, 60)).toBe(6);
  });

  it('a limit is never shown higher than it is, once it has been read', () => {
    const still = new StillFigure({ step: 0.1, margin: 1, holdMs: 1000, round: 'down' });
    expect(still.at(2.49, 0)).toBe(2.4);
    expect(still.at(2.55, 1200)).toBe(2.4);
    expect(still.at(2.39, 1300)).toBe(2.3);
    expect(still.at(2.29, 1400)).toBe(2.3);
    expect(still.at(2.29, 2400)).toBe(2.2);
  });

  it('a sign comes at once, stays two seconds, and does not flicker with its reason', () => {
    const sign = new HeldSign({ leastMs: 2000, goneMs: 500 });
    expect(sign.at(false, 0)).toBe(false);
    expect(sign.at(true, 10)).toBe(true);
    for (let ms = 40; ms < 2000; ms += 33) expect(sign.at(false, ms)).toBe(true);
    expect(sign.at(true, 2000)).toBe(true);
    expect(sign.at(false, 2400)).toBe(true);
    expect(sign.at(false, 2510)).toBe(false);
  });

  it('tells the safe feed rounded down, and asks for less without flicker, but not once the feed is stopped', () => {
    const watch = new SafeFeedWatch('mm');
    const fast = { state: 'feeding', easeFeed: true, safeMPerMin: 2.47, speedMmPerS: 52 } as const;
    expect(watch.told(fast, 0)).toEqual({ isEasing: true, safe: '2.4 m/min', feed: '3.1 m/min' });
    expect(watch.told({ ...fast, easeFeed: false }, 600).isEasing).toBe(true);
    expect(watch.told({ ...fast, state: 'stopped' }, 700)).toEqual({ isEasing: false, safe: null, feed: null });
    expect(watch.told({ ...fast, easeFeed: false, safeMPerMin: null }, 800)).toMatchObject({
      isEasing: false,
      safe: null,
    });
  });
});

describe('the server clock, with guides and beats', () => {
  it('is right within the quickest way there and the quickest way back, taken together and halved', () => {
    const delays = fc.array(fc.double({ min: 0.5, max: JITTER_MS, noNaN: true }), { minLength: 30, maxLength: 120 });
    fc.assert(
      fc.property(delays, fc.integer({ min: -1e6, max: 1e12 }), (ways, offsetMs) => {
        const clock = new ServerClock();
        for (const [index, wayMs] of ways.entries()) clock.heard(index * 33 + offsetMs, index * 33 + wayMs);
        const [outMs, backMs] = [ways[1] ?? 0, ways[2] ?? 0];
        clock.add({ sentMs: 5000, serverMs: 5000 + outMs + offsetMs, receivedMs: 5000 + outMs + backMs });
        const boundMs = (outMs + Math.min(...ways)) / 2;
        expect(Math.abs((clock.offsetMs ?? Number.NaN) - offsetMs)).toBeLessThanOrEqual(boundMs + 1e-3);
      }),
      { numRuns: 100 },
    );
  });

  it('begins anew when one of the clocks was set, or slept', () => {
    const clock = new ServerClock();
    clock.add({ sentMs: 0, serverMs: 1010, receivedMs: 20 });
    expect(clock.offsetMs).toBe(1000);
    clock.heard(5100, 110);
    expect(clock.offsetMs).toBe(4990);
    clock.add({ sentMs: 200, serverMs: 5200, receivedMs: 210 });
    expect(clock.offsetMs).toBe(4995);
  });

  it('follows a clock that drifts away, a bound of long ago being forgotten', () => {
    const clock = new ServerClock();
    const offsetAt = (ms: number): number => 1000 - 1e-4 * ms;
    for (let ms = 0; ms < 1_200_000; ms += 4000)
      clock.add({ sentMs: ms, serverMs: ms + 5 + offsetAt(ms), receivedMs: ms + 10 });
    expect(Math.abs((clock.offsetMs ?? 0) - offsetAt(1_200_000))).toBeLessThan(12);
  });
});
