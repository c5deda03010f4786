import { describe, expect, it } from 'vitest';
import { usualHand, withoutChance } from '../../../server/core/hand/traits.ts';
import { CHOICES, SHOP_ROUTINE, type SimulatedChoice } from '../../../server/core/simulate/choices.ts';
import { type PlanSimulation, simulatorOf } from '../../../server/core/simulate/simulatePlan.ts';
import { NO_FAULTS } from '../../../server/core/simulate/simulation.ts';
import { expectClose } from '../../kit/close.ts';
import { demoPlan } from '../../kit/demoPlan.ts';
import { wantedOf } from './wanted.ts';
import { wrongsOf } from './wrongsOf.ts';

const plan = await demoPlan();
const simulate = simulatorOf(plan);
const wanted = wantedOf(plan);
const choice = (name: string): SimulatedChoice => {
  const found = CHOICES[name];
  if (found === undefined) throw new Error(`no routine ${name}`);
  return found;
};
const run = (name: string, options: PlanSimulation) => simulate(choice(name), options);
const rmsOf = (name: string, mPerMin = 3): number => {
  const runs = Array.from({ length: 8 }, (_, seed) => run(name, { mPerMin, seed: 31 * seed + 1 }));
  return Math.sqrt(runs.reduce((sum, { rmsDeg }) => sum + rmsDeg ** 2, 0) / runs.length);
};

describe('a simulated run', () => {
  it('is the same for the same seed, and another for another', () => {
    const one = run('even turning', { mPerMin: 3, seed: 5 });
    expect(run('even turning', { mPerMin: 3, seed: 5 })).toEqual(one);
    expect(run('even turning', { mPerMin: 3, seed: 6 })).not.toEqual(one);
  });

  it('takes as long as the feed takes, and longer by its stops', () => {
    const lengthM = Math.abs((plan.marks.at(-1)?.stockMm ?? 0) - (plan.marks[0]?.stockMm ?? 0)) / 1000;
    const straight = run('even turning', { mPerMin: 2, seed: 3 }).durationS;
    expectClose(straight / ((lengthM / 2) * 60), 1, 0.05, 'share of length over feed');
    const stops = [{ atMm: 700, forMs: 3000, goesOnMs: 1000 }];
    expectClose(run('even turning', { mPerMin: 2, seed: 3, stops }).durationS - straight, 4, 0.5, 'the stop');
  });

  it('notes every mark when the wood is really there', () => {
    const { arrivals } = run('mark by mark on the pedal', { mPerMin: 3, seed: 2 });
    const times = arrivals.map(({ atMs }) => atMs ?? Number.NaN);
    expect(arrivals.map(({ mark }) => mark).toSorted((a, b) => a - b)).toEqual(plan.marks.map(({ mark }) => mark));
    expect(times).toEqual(times.toSorted((a, b) => a - b));
  });

  it.each(Object.keys(CHOICES).filter((name) => name !== SHOP_ROUTINE && !name.includes('scanned')))(
    '%s: no late call, no wrong number, never two at once, no mark passed over',
    (name) => {
      const { routine, source } = choice(name);
      const isByDegrees = routine === 'degree by degree';
      for (let seed = 1; seed <= 6; seed += 1) {
        const mPerMin = 1 + 0.4 * seed;
        expect(wrongsOf(wanted, run(name, { mPerMin, seed }), { mPerMin, isByDegrees, source })).toEqual([]);
      }
    },
  );

  it('is stopped by its alarm when the wood is pulled back, and goes on', () => {
    const stops = [{ atMm: 500, forMs: 2000, pullBackMm: 30 }];
    const pulled = run('even turning', { mPerMin: 2, seed: 4, stops });
    expect(pulled.calls.map(({ text }) => text)).toContain('stop feed, wood still, hold tilt, switch off');
    expect(pulled.isFinished).toBe(true);
  });

  it('measures nothing but the rounding of the calls where nothing else is wrong', () => {
    const hand = withoutChance(usualHand(plan.crew, plan.saw.degreesPerTurn, plan.saw.readoutDeg));
    const perfect = run('mark by mark on the pedal', { mPerMin: 1, seed: 1, hand, faults: NO_FAULTS });
    for (const { errorDeg } of perfect.arrivals)
      expect(Math.abs(errorDeg ?? 9)).toBeLessThanOrEqual(plan.saw.readoutDeg / 2 + 0.02);
  });

  it('measures the gap across the siding', () => {
    const { worstDeg, worstGapMm } = run(SHOP_ROUTINE, { mPerMin: 3, seed: 1 });
    // Derived: siding x tan(error) at a small bevel, and a little more at a greater one.
    const least = plan.frame.sidingMm * Math.tan((worstDeg * Math.PI) / 180);
    expect(worstGapMm / least).toBeGreaterThan(0.99);
    expect(worstGapMm / least).toBeLessThan(1.1);
  });

  it('at 3 m/min leaves a third, a sixth and a tenth of what the shop routine leaves', () => {
    const shop = rmsOf(SHOP_ROUTINE);
    expect(rmsOf('even turning')).toBeLessThan(shop / 3);
    expect(rmsOf('following on the readout')).toBeLessThan(shop / 6);
    const onSensor = rmsOf('following on a tilt sensor');
    expect(onSensor).toBeLessThan(shop / 10);
    expect(onSensor).toBeLessThan(0.15);
  });
});
