import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { interpolate } from '../../../../server/core/numeric/interpolate.ts';
import { degreeSteps } from '../../../../server/core/routine/degreeSteps.ts';
import type { RunEvent } from '../../../../server/core/run/engine/events.ts';
import { steepestBetween } from '../../../../server/core/run/engine/profile.ts';
import { trueTiltDeg } from '../../../../server/core/saw/readout.ts';
import { arrivesMs, callsOf, FEED_BEGINS_MS, feedRun, steadyFeed, toldOf } from '../../../kit/feedRun.ts';
import { degreeSetup } from '../../../kit/runSetup.ts';

const words = (deg: number): string => `step ${deg}`;
const profiles = fc
  .array(fc.double({ min: 0, max: 40, noNaN: true }), { minLength: 2, maxLength: 30 })
  .map((tiltsDeg) => ({ positionsMm: tiltsDeg.map((_, index) => 60 * index), tiltsDeg }));

/** The figure held at a place, by the list of steps. */
const heldAt = (steps: ReturnType<typeof degreeSteps>, firstDeg: number, positionMm: number): number =>
  steps.findLast((step) => step.positionMm <= positionMm)?.callDeg ?? firstDeg;

describe('the figures of degree by degree', () => {
  it('are everywhere within half a step of the tilt that is wanted, through the readout, and go step by step', () => {
    fc.assert(
      fc.property(profiles, fc.constantFrom(0.1, 0.5, 1), (profile, readoutDeg) => {
        const stepDeg = Math.max(0.5, readoutDeg);
        // One degree of the readout is at most so many true ones.
        const mostTruePerShown = (40.8 - 0.3) / 40;
        const table = [
          [0, 0.3],
          [40, 40.8],
        ] as const;
        const first = Math.round(profile.tiltsDeg[0] ?? 0);
        const steps = degreeSteps(profile, first, { readoutDeg, readoutTable: table, words });
        let before = steps[0]?.callDeg ?? first;
        for (const { callDeg, isWhole, positionMm, deadlineMm } of steps.slice(1)) {
          expect(Math.abs(callDeg - before)).toBeCloseTo(stepDeg, 9);
          expect(isWhole).toBe(callDeg % 1 === 0);
          expect(deadlineMm).toBeGreaterThanOrEqual(positionMm);
          before = callDeg;
        }
        const endMm = profile.positionsMm.at(-1) ?? 0;
        for (let at = steps[0]?.positionMm ?? endMm; at < endMm; at += 7) {
          const wanted = interpolate(profile.positionsMm, profile.tiltsDeg, at);
          const held = trueTiltDeg(heldAt(steps, first, at), table);
          expect(Math.abs(held - wanted)).toBeLessThanOrEqual((stepDeg / 2) * mostTruePerShown + 1e-9);
        }
      }),
      { numRuns: 200 },
    );
  });
});

describe('a run degree by degree', () => {
  const speakMs = 900;
  /** Words over a reaction and half the turn before the place: 0.5 degrees at 1.4 a second. */
  const aheadMs = 350 + 0.5 / 1.4 / 2 / 0.001;

  it('calls each half degree so that the turn to it is centred where it becomes right', () => {
    const setup = degreeSetup();
    const fed = feedRun(setup, steadyFeed(0.015, 601));
    const [first, ...calls] = callsOf(fed);
    expect(first).toMatchObject({ mark: 1, deg: 8 });
    expect(calls.map(({ deg }) => deg)).toEqual(setup.steps?.map(({ callDeg }) => callDeg));
    for (const [index, { startsAtMs, mark }] of calls.entries()) {
      expect(mark).toBeUndefined();
      const placeMm = setup.steps?.[index]?.positionMm ?? 0;
      if (placeMm > 30) expect(startsAtMs + speakMs + aheadMs).toBeCloseTo(arrivesMs(0.015, placeMm), -1.8);
    }
    expect(fed.state.phase).toBe('finished');
    expect(toldOf(fed)).toEqual([]);
  });

  it('leaves halves out for whole degrees where only one of the two can be said', () => {
    // 2 degrees in 150 mm: a half each 37.5 mm, at 50 mm/s each 0.75 s, and the words take 0.9.
    const calls = callsOf(feedRun(degreeSetup(), steadyFeed(0.05, 300))).slice(1);
    expect(calls.map(({ deg }) => deg)).toEqual([9, 10, 11, 12, 11.5]);
    for (const { startsAtMs, durationMs, deg = 0 } of calls.slice(0, 4))
      expect(startsAtMs + durationMs).toBeLessThanOrEqual(arrivesMs(0.05, (deg - 8) * 75));
  });

  it('never says two at once, and never a figure that is no longer right, at any feed', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 0.2, noNaN: true }), (mmPerMs) => {
        const setup = degreeSetup();
        const fed = feedRun(setup, steadyFeed(mmPerMs, 601));
        const calls = callsOf(fed);
        for (const [index, call] of calls.entries()) {
          const cutOff = fed.effects.find(({ effect }) => effect.kind === 'cut-off' && effect.id === call.id);
          const overMs = Math.min(call.startsAtMs + call.durationMs, cutOff?.atMs ?? Number.POSITIVE_INFINITY);
          const next = calls[index + 1];
          if (next !== undefined) expect(overMs).toBeLessThanOrEqual(next.startsAtMs);
          const step = setup.steps?.find(
            ({ callDeg, deadlineMm }) => callDeg === call.deg && arrivesMs(mmPerMs, deadlineMm) >= overMs - 1,
          );
          if (call.mark === undefined) expect(step).toBeDefined();
        }
      }),
      { numRuns: 100 },
    );
  });

  it('says at a resume the figure that is right for the wood at the blade', () => {
    const events: RunEvent[] = [...steadyFeed(0.03, 60)];
    const atMs = events.at(-1)?.atMs ?? FEED_BEGINS_MS;
    events.push({ kind: 'stopped', by: 'page', atMs: atMs + 10 });
    // It ran on: there 10 is right.
    events.push({ kind: 'moved', atMs: atMs + 200, mm: 140 }, { kind: 'resumed', atMs: atMs + 3000 });
    expect(callsOf(feedRun(degreeSetup(), events)).at(-1)).toMatchObject({ deg: 10 });
  });

  it('a press puts the place right and hears once more what is being turned to', () => {
    const events: RunEvent[] = [...steadyFeed(0.03, 144)];
    events.push({ kind: 'pressed', gesture: 'next', atMs: (events.at(-1)?.atMs ?? 0) + 20 });
    const fed = feedRun(degreeSetup(), events);
    expect(fed.state.reckoning?.positionMm).toBeCloseTo(150, 0);
    expect(callsOf(fed).at(-1)).toMatchObject({ deg: 10.5 });
  });

  it('without a count of travel it is mark by mark', () => {
    const presses = [1, 2].map((n): RunEvent => ({ kind: 'pressed', gesture: 'next', atMs: 4000 * n }));
    const fed = feedRun(degreeSetup(), [{ kind: 'started', atMs: 0, withoutSound: true }, ...presses]);
    expect(callsOf(fed).map(({ mark }) => mark)).toEqual([1, 2, 3]);
  });

  it('the steepest place of the profile is known', () => {
    expect(steepestBetween(degreeSetup(), 0, 600)).toBeCloseTo(2 / 150, 12);
    expect(steepestBetween(degreeSetup(), 310, 440)).toBeCloseTo(1 / 150, 12);
  });
});
