import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import {
  type FeedModel,
  FULL_STOP_MS,
  standingFeed,
  stepFeed,
  wheelMm,
} from '../../../server/core/simulate/feedModel.ts';
import { expectClose } from '../../kit/close.ts';
import { holds } from '../../kit/holds.ts';

const seed = fc.integer({ min: 0, max: 2 ** 31 });
const mPerMin = fc.double({ min: 0.2, max: 12, noNaN: true });
const stretch = fc.record({ ms: fc.integer({ min: 0, max: 4000 }), moving: fc.boolean() });
const full = { mPerMin: 3, seed: 5 };

const play = (model: FeedModel, stretches: readonly { readonly ms: number; readonly moving: boolean }[]): FeedModel =>
  stretches.reduce((now, { ms, moving }) => stepFeed(now, ms, moving), model);

it('changes nothing when a step is split in two', () => {
  holds(
    fc.property(
      seed,
      mPerMin,
      fc.array(stretch, { maxLength: 6 }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      (s, m, stretches, share) => {
        const model = standingFeed({ mPerMin: m, seed: s });
        const split = stretches.flatMap(({ ms, moving }) => [
          { ms: ms * share, moving },
          { ms: ms * (1 - share), moving },
        ]);
        expectClose(play(model, split).positionMm, play(model, stretches).positionMm, 1e-6, 'position');
      },
    ),
  );
});

it('never counts back, and counts nothing while the wood stands', () => {
  holds(
    fc.property(seed, mPerMin, fc.array(stretch, { minLength: 1, maxLength: 30 }), (s, m, stretches) => {
      let model = standingFeed({ mPerMin: m, seed: s });
      let last = wheelMm(model);
      expect(last).toBe(0);
      for (const { ms, moving } of stretches)
        for (let at = 0; at < ms; at += 20) {
          const wasStanding = !moving && model.hand === 0;
          model = stepFeed(model, 20, moving);
          const count = wheelMm(model);
          expect(count).toBeGreaterThanOrEqual(last);
          if (wasStanding) expect(count).toBe(last);
          last = count;
        }
    }),
    { numRuns: 30 },
  );
});

it('starts slowly, and stands within its stopping time', () => {
  const first = stepFeed(standingFeed(full), 20, true);
  expect(first.positionMm).toBeGreaterThan(0);
  expect(first.positionMm).toBeLessThan(0.1);
  const running = stepFeed(standingFeed(full), 5000, true);
  const stopped = stepFeed(running, FULL_STOP_MS, false);
  expect(stepFeed(stopped, 60_000, false).positionMm).toBe(stopped.positionMm);
  // Half the speed for the stopping time: 3 m/min is 50 mm/s, so 7.5 mm.
  expectClose(stopped.positionMm - running.positionMm, 7.5, 0.4, 'run-on');
});

it('swings about its feed by a few per cent and not more', () => {
  holds(
    fc.property(seed, mPerMin, (s, m) => {
      let model = stepFeed(standingFeed({ mPerMin: m, seed: s }), 1000, true);
      for (let second = 0; second < 120; second++) {
        const later = stepFeed(model, 100, true);
        const speed = ((later.positionMm - model.positionMm) / 100) * 60;
        expect(Math.abs(speed / m - 1)).toBeLessThanOrEqual(0.04);
        model = stepFeed(later, 900, true);
      }
    }),
    { numRuns: 20 },
  );
});

it('gives the same wood for the same seed and other wood for another', () => {
  const at = (s: number) => stepFeed(standingFeed({ mPerMin: 3, seed: s }), 3333, true).positionMm;
  expect(at(1)).toBe(at(1));
  expect(new Set([1, 2, 3, 4].map(at)).size).toBe(4);
});

it('survives a trip through JSON', () => {
  const model = stepFeed(standingFeed(full), 777, true);
  expect(stepFeed(JSON.parse(JSON.stringify(model)), 500, false)).toEqual(stepFeed(model, 500, false));
});

it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])('has no feed of %d m/min', (bad) => {
  expect(() => standingFeed({ mPerMin: bad, seed: 1 })).toThrow(`found ${bad}`);
});

it('has no time that goes back', () => {
  expect(() => stepFeed(standingFeed(full), -1, true)).toThrow('found a step of -1 ms');
});
