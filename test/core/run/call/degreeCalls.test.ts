import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { interpolate } from '../../../../server/core/numeric/interpolate.ts';
import { degreeSteps } from '../../../../server/core/routine/degreeSteps.ts';
import { callStep, heldDeg, stepDue, stepInForce } from '../../../../server/core/run/call/degreeCalls.ts';
import type { RunEvent } from '../../../../server/core/run/engine/events.ts';
import { steepestBetween } from '../../../../server/core/run/engine/profile.ts';
import type { Reckoning, RunSetup, RunState } from '../../../../server/core/run/engine/state.ts';
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

/**
 * By hand: 8.5 becomes right at 18.75 mm, 9 at 56.25, and so on each 37.5 mm up to 12 at 281.25; then down, 11.5 at 337.5, 11 at
 * 412.5. Words of 900 ms, a reaction of 350 ms, half a degree in 0.5 / 1.4 s; what is held is the figure of step `step`.
 */
describe('the figure that comes next', () => {
  const NOW_MS = 10_000;
  const HALF_TURN_MS = 500 / 1.4;
  const PEAK = 7;
  function holding(step: number, positionMm: number, mmPerMs: number | null, setup: Partial<RunSetup> = {}): RunState {
    const { state } = feedRun(degreeSetup(setup), steadyFeed(0.015, 20));
    const { reckoning } = state;
    if (reckoning === null) throw new Error('no place');
    const place: Partial<Reckoning> = { positionMm, speedMmPerMs: mmPerMs, speedSdMmPerMs: 0, uncertaintyMm: 0 };
    return { ...state, step, speaking: null, reckoning: { ...reckoning, ...place, atMs: NOW_MS } };
  }
  const dueMs = (state: RunState): number => (stepDue(state, NOW_MS)?.atMs ?? Number.NaN) - NOW_MS;

  it('is said so that the turn to it is centred where it becomes right', () => {
    const inMs = (56.25 - 20) / 0.015;
    expect(dueMs(holding(0, 20, 0.015))).toBeCloseTo(inMs - 900 - 350 - HALF_TURN_MS / 2, 6);
  });

  it('is said earlier by the looseness where the bevel turns back, and only there', () => {
    const loose = { backlashTurns: 0.25, degreesPerTurn: 2 };
    const looseMs = (0.25 / 0.7) * 1000;
    const inMs = (337.5 - 290) / 0.015;
    expect(dueMs(holding(PEAK, 290, 0.015, loose))).toBeCloseTo(inMs - 900 - 350 - looseMs - HALF_TURN_MS / 2, 6);
    expect(dueMs(holding(0, 20, 0.015, loose))).toBe(dueMs(holding(0, 20, 0.015)));
    expect(dueMs(holding(-1, 0, 0.01, loose))).toBe(dueMs(holding(-1, 0, 0.01)));
  });

  it('may be said as long as its words are over half the way on to where the one after it is due', () => {
    // 9 must be over at 75 mm.
    expect(stepDue(holding(0, 75 - 0.015 * 901, 0.015), NOW_MS)).toMatchObject({ index: 1, atMs: NOW_MS });
    expect(stepDue(holding(0, 75 - 0.015 * 899, 0.015), NOW_MS)).toMatchObject({ index: 2 });
  });

  it('waits for what is being said, and the pause after it', () => {
    const state = holding(0, 50, 0.015);
    const call = {
      id: 'c',
      to: 'tilt hand',
      text: 'step 8.5',
      deg: 8.5,
      startsAtMs: NOW_MS - 800,
      durationMs: 900,
    } as const;
    expect(dueMs({ ...state, speaking: call })).toBeCloseTo(100 + 60, 6);
  });

  it('is no half where only one of two can be said: 37.5 mm in less than 900 ms and a pause of 60', () => {
    const crowdedAt = 37.5 / 960;
    expect(stepDue(holding(1, 60, 0.999 * crowdedAt), NOW_MS)).toMatchObject({ index: 2, isTooFast: false });
    expect(stepDue(holding(1, 60, 1.001 * crowdedAt), NOW_MS)).toMatchObject({ index: 3, isTooFast: false });
  });

  it('is no half either where it leaves no time behind the whole degree before it alone', () => {
    // Steep up to 100 mm: 9 at 50 mm, 9.5 at 83 mm; then less: 10 at 150 mm.
    const profile = { positionsMm: [0, 100, 500], tiltsDeg: [8, 9.5, 11.5] };
    expect(stepDue(holding(1, 55, 0.03, { profile }), NOW_MS)).toMatchObject({ index: 2 });
    expect(stepDue(holding(1, 55, 0.05, { profile }), NOW_MS)).toMatchObject({ index: 3 });
  });

  it('tells of too fast a feed where a whole degree is left out too', () => {
    // At 0.1 mm/ms 9 would have to be over in 0.55 s; 9.5 is a half.
    expect(stepDue(holding(0, 20, 0.1), NOW_MS)).toMatchObject({ index: 3, isTooFast: true });
  });

  it('is not the one that is held, where the figure between was left out', () => {
    // 12 would have to be over at 309.4 mm; 11.5 is held on both sides of it.
    expect(stepDue(holding(PEAK - 1, 300, 0.015), NOW_MS)).toMatchObject({ index: PEAK + 2, isTooFast: false });
  });

  it('is called at its own place where a count tells no speed, and none while the wood stands', () => {
    const countedFor = (state: RunState, ms: number): RunState => {
      const { reckoning } = state;
      if (reckoning?.travel == null) throw new Error('no count');
      return { ...state, reckoning: { ...reckoning, travel: { ...reckoning.travel, sinceMs: NOW_MS - ms } } };
    };
    expect(stepDue(countedFor(holding(0, 56, null), 701), NOW_MS)).toBeNull();
    expect(stepDue(countedFor(holding(0, 56.25, null), 701), NOW_MS)).toEqual({
      index: 1,
      atMs: NOW_MS,
      isTooFast: false,
    });
    expect(stepDue(holding(0, 56.25, 0), NOW_MS)).toBeNull();
    // It is given 0.7 s to tell one.
    expect(stepDue(countedFor(holding(0, 56.25, null), 700), NOW_MS)).toBeNull();
  });

  it('is none behind the last one', () => {
    const setup = degreeSetup();
    expect(stepDue(holding((setup.steps ?? []).length - 1, 590, 0.015), NOW_MS)).toBeNull();
  });

  it('in force, standing or moving, is the one whose turn would be centred by a hand that hears it now', () => {
    const onMm = 0.03 * (350 + HALF_TURN_MS / 2);
    expect(stepInForce(holding(-1, 18.75 - onMm - 0.01, 0.03))).toBe(-1);
    expect(stepInForce(holding(-1, 18.75 - onMm + 0.01, 0.03))).toBe(0);
    // A turn of this wheel is one degree here, not two: twice the turning.
    const slow = {
      turnsTable: [
        [0, 0],
        [20, 20],
      ] as const,
    };
    const slowMm = 0.03 * (350 + HALF_TURN_MS);
    expect(stepInForce(holding(-1, 56.25 - slowMm - 0.01, 0.03, slow))).toBe(0);
    expect(stepInForce(holding(-1, 56.25 - slowMm + 0.01, 0.03, slow))).toBe(1);
  });

  it('once said has its words over by half the way on; behind that, as after a stop, until the next one is right', () => {
    expect(callStep(holding(0, 40, 0.015), NOW_MS, 1)[0]).toMatchObject({ step: 1, stepByMm: 75 });
    expect(callStep(holding(0, 75, 0.015), NOW_MS, 1)[0]).toMatchObject({ step: 1, stepByMm: 93.75 });
    expect(callStep(holding(0, 40, 0.015), NOW_MS, 1, 'p1')[1]).toMatchObject([
      { kind: 'say', call: { deg: 9, to: 'tilt hand', cause: 'p1' } },
    ]);
  });

  it('follows the bevel of a mark where no figure was called yet', () => {
    expect(heldDeg(holding(3, 0, 0))).toBe(10);
    expect(heldDeg({ ...holding(-1, 0, 0), turningTo: 2 })).toBe(12);
    expect(heldDeg({ ...holding(-1, 0, 0), turningTo: -1 })).toBe(8);
  });
});
