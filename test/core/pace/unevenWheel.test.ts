/** A wheel whose turns are not worth the same, and its looseness: in the pace, in the lead of a run, and under a modelled hand. */
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { restingHand } from '../../../server/core/hand/hand.ts';
import { usualHand, withoutChance } from '../../../server/core/hand/traits.ts';
import { turnToward } from '../../../server/core/hand/wheel.ts';
import { makePlan } from '../../../server/core/makePlan.ts';
import { paceOf } from '../../../server/core/pace/pace.ts';
import type { Plan } from '../../../server/core/plan/plan.ts';
import { backlashAlong } from '../../../server/core/routine/backlashAlong.ts';
import { markByMark } from '../../../server/core/routine/markByMark.ts';
import { wayToStation, wheelMs } from '../../../server/core/run/call/callTiming.ts';
import { safeFeed } from '../../../server/core/run/call/safeFeed.ts';
import { initialState } from '../../../server/core/run/engine/initialState.ts';
import { makeSetup } from '../../../server/core/run/makeSetup.ts';
import { CHOICES } from '../../../server/core/simulate/choices.ts';
import { simulatorOf } from '../../../server/core/simulate/simulatePlan.ts';
import { aJob, picked } from '../../kit/aJob.ts';
import { holds } from '../../kit/holds.ts';
import { smallSetup } from '../../kit/runSetup.ts';
import { anyRip, aRip } from './pacedRips.ts';

/** A degree a turn below five turns, three above. */
const TABLE = [
  [0, 0],
  [5, 5],
  [10, 20],
] as const;
const marks = [4, 6, 11, 11, 9].map((callDeg, i) => ({ mark: i + 1, alongMm: 150 * i, callDeg, wordsS: 1 }));
const crew = { reactionS: 0.5, turnsPerS: 0.5, feedMPerMin: 3 };

describe('the pace', () => {
  test('counts turns by the table, and the looseness where the way of turning changes: by hand', () => {
    const wheelS = (saw: object) => markByMark(aRip(marks, crew, 2, saw)).map((interval) => interval.wheelS);
    // 4 to 5 one turn, 5 to 6 a third; 6 to 11 five thirds; none; 11 to 9 two thirds: at half a turn a second.
    const turns = [4 / 3, 5 / 3, 0, 2 / 3];
    for (const [i, s] of wheelS({ turnsTable: TABLE }).entries()) expect(s).toBeCloseTo((turns[i] ?? 0) / 0.5, 9);
    const loose = wheelS({ turnsTable: TABLE, backlashTurns: 0.25 });
    for (const [i, s] of loose.entries()) expect(s).toBeCloseTo(((turns[i] ?? 0) + (i === 3 ? 0.25 : 0)) / 0.5, 9);
    // Without either, the figures of before to the last digit.
    expect(wheelS({})).toEqual([2, 5, 0, 2].map((deg) => Math.abs(deg) / (2 * 0.5)));
  });

  test('a table of even turns is no table, and looseness never makes any routine faster', () => {
    holds(
      fc.property(anyRip, fc.double({ min: 0, max: 1, noNaN: true }), (rip, backlashTurns) => {
        const { degreesPerTurn } = rip.saw;
        const even = [-30, 0, 60].map((turns) => [turns, turns * degreesPerTurn] as const);
        const plain = paceOf(rip);
        const same = paceOf({ ...rip, saw: { ...rip.saw, turnsTable: even } });
        const loose = paceOf({ ...rip, saw: { ...rip.saw, backlashTurns } });
        for (const routine of ['mark by mark', 'even turning', 'degree by degree', 'following'] as const) {
          const [a, b, c] = [plain, same, loose].map((pace) => pace.routines?.[routine].limitMPerMin ?? 1e9);
          expect((b ?? 0) / (a ?? 1)).toBeCloseTo(1, 6);
          expect(c ?? 0).toBeLessThanOrEqual((a ?? 0) * (1 + 1e-9));
        }
      }),
      { numRuns: 60 },
    );
  });
});

describe('looseness where the tilt is followed', () => {
  test('is taken up near the turning point: by hand, half a degree of it over the flat of a hill', () => {
    const wheel = { degreesPerTurn: 2, backlashTurns: 0.25 };
    // Up to 10 and down again; within a tenth of a degree of the top lie the three places in the middle.
    const tilts = [8, 9, 9.9, 10, 9.9, 9, 8];
    const at = backlashAlong(wheel, [0, 10, 20, 30, 40, 50, 60], tilts, 1, 0.1 + 1e-9);
    const wanted = [8.25, 9.25, 10.25, 10, 9.75, 8.75, 7.75];
    for (const [i, deg] of at.entries()) expect(deg).toBeCloseTo(wanted[i] ?? Number.NaN, 9);
  });

  test('leaves the tilt as near as it may be, all along: pushed by the wheel it strays by no more than was given', () => {
    const tilts = fc.array(fc.double({ min: -10, max: 30, noNaN: true }), { minLength: 2, maxLength: 40 });
    holds(
      fc.property(
        tilts,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 0.5, noNaN: true }),
        (tiltsDeg, backlashTurns, within) => {
          const wheel = { degreesPerTurn: 3, backlashTurns };
          const half = (3 * backlashTurns) / 2;
          const at = backlashAlong(
            wheel,
            tiltsDeg.map((_, i) => 7 * i),
            tiltsDeg,
            1,
            within,
          );
          // The tilt lies anywhere in the play until a face pushes it.
          let tilt = tiltsDeg[0] ?? 0;
          for (const [i, deg] of at.entries()) {
            tilt = Math.min(deg + half, Math.max(deg - half, tilt));
            expect(Math.abs(tilt - (tiltsDeg[i] ?? 0))).toBeLessThanOrEqual(within + 1e-9);
          }
        },
      ),
    );
  });
});

describe('a run in progress', () => {
  const setup = smallSetup({ turnsTable: TABLE, backlashTurns: 0.25 });

  test('leads by the turns of the table, and by the looseness at the call where the way changes', () => {
    const state = initialState(setup);
    // 10 to 12 is two thirds of a turn at 0.7 a second; 12 to 11 a third and a quarter more.
    expect(wheelMs(state, 10, 12, wayToStation(state, 1))).toBeCloseTo(1000 * (2 / 3 / 0.7), 6);
    expect(wheelMs(state, 12, 11, wayToStation(state, 2))).toBeCloseTo(1000 * ((1 / 3 + 0.25) / 0.7), 6);
    expect(wheelMs(state, 11, 9, wayToStation(state, 3))).toBeCloseTo(1000 * (2 / 3 / 0.7), 6);
    const plain = initialState(smallSetup());
    expect(wheelMs(plain, 12, 11, wayToStation(plain, 2))).toBe((1 / 2 / 0.7) * 1000);
  });

  test('is safe at a slower feed where looseness lies ahead', () => {
    const feeding = (backlashTurns: number) => ({
      ...initialState(smallSetup({ backlashTurns })),
      phase: 'feeding' as const,
      reached: 3,
      turningTo: 2,
    });
    const at = (turns: number) => safeFeed(feeding(turns), 300, 0) ?? Number.NaN;
    expect(at(1)).toBeLessThan(at(0));
  });

  test('carries what the job says of its wheel, through its record', () => {
    const plan = planOf();
    expect(makeSetup(plan, 'pair', {})).toMatchObject({ turnsTable: WHEEL, backlashTurns: 0.25 });
    expect(plan.saw).toMatchObject({ turnsTable: WHEEL, backlashTurns: 0.25 });
    expect(makeSetup(planOf({ turnsTable: undefined, backlashTurns: undefined }), 'pair', {})).not.toHaveProperty(
      'turnsTable',
    );
  });
});

/** A screw whose turns are worth 1.5 degrees at square and 3 at 20. */
const WHEEL = [
  [-4, -5],
  [0, 0],
  [4, 6],
  [8, 15],
  [12, 27],
] as const;

function planOf(saw: object = {}): Plan {
  const made = makePlan(
    aJob({
      shape: picked([0, 3], [300, 7], [600, 12], [900, 11], [1200, 6], [1500, 3]),
      saw: { degreesPerTurn: 2, turnsTable: WHEEL, backlashTurns: 0.25, ...saw },
    }),
  );
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value;
}

describe('the modelled hand', () => {
  const traits = withoutChance(usualHand(crew, 2, 0.5, { turnsTable: TABLE, backlashTurns: 0.25 }));

  test('turns through the looseness when the way changes, and by the table: the time is as the pace has it', () => {
    let { wheel } = restingHand();
    const timeTo = (deg: number): number => {
      for (let ms = 0; ; ms += 5) {
        if (Math.abs(wheel.tiltDeg - deg) < 0.025) return ms;
        if (ms > 60_000) throw new Error(`stuck at ${wheel.tiltDeg}`);
        wheel = turnToward(wheel, deg, 0, 5, traits);
      }
    };
    timeTo(4);
    const up = timeTo(11);
    const down = timeTo(9);
    // 4 to 11: three turns; 11 to 9: two thirds and a quarter; at half a turn a second, and starting up within 0.2 s.
    expect(up / 1000).toBeGreaterThan(3 / 0.5 - 0.05);
    expect(up / 1000).toBeLessThan(3 / 0.5 + 0.25);
    expect(down / 1000).toBeGreaterThan((2 / 3 + 0.25) / 0.5 - 0.06);
    expect(down / 1000).toBeLessThan((2 / 3 + 0.25) / 0.5 + 0.25);
  });

  test('is in time at the feed that the plan allows, and would not be by the plan of a wheel without looseness', () => {
    const plan = planOf();
    const hand = withoutChance(usualHand(plan.crew, plan.saw.degreesPerTurn, plan.saw.readoutDeg, plan.saw));
    const choice = CHOICES['mark by mark on a measuring wheel'];
    if (choice === undefined) throw new Error('no such choice');
    const worstAt = (mPerMin: number): number => {
      const run = simulatorOf(plan)(choice, { mPerMin, seed: 3, hand });
      return Math.max(...run.arrivals.slice(1).map(({ errorDeg }) => Math.abs(errorDeg ?? 99)));
    };
    // Rounding of the calls, what is let be, and the last of a turn that is still slowing down.
    expect(worstAt(0.97 * plan.pace.limitMPerMin)).toBeLessThan(0.25 + 0.3);
    const naive = planOf({ backlashTurns: undefined, turnsTable: undefined }).pace.limitMPerMin;
    expect(plan.pace.limitMPerMin).not.toBeCloseTo(naive, 3);
  });
});
