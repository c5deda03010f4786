import { describe, expect, it } from 'vitest';
import { CHOICES } from '../../../server/core/simulate/choices.ts';
import { simulatePlan } from '../../../server/core/simulate/simulatePlan.ts';
import { demoPlan } from '../../kit/demoPlan.ts';
import { faultsOf } from '../../kit/faultsOf.ts';

const plan = await demoPlan();
const choice = (name: string) => {
  const found = CHOICES[name];
  if (found === undefined) throw new Error(`no routine ${name}`);
  return found;
};
const rmsOf = (name: string, mPerMin = 3): number => {
  const runs = Array.from({ length: 6 }, (_, seed) =>
    simulatePlan(plan, choice(name), { mPerMin, seed: 31 * seed + 1 }),
  );
  return Math.sqrt(runs.reduce((sum, { rmsDeg }) => sum + rmsDeg ** 2, 0) / runs.length);
};

describe('a simulated run', () => {
  it('is the same for the same seed, and another for another', () => {
    const one = simulatePlan(plan, choice('even turning'), { mPerMin: 3, seed: 5 });
    expect(simulatePlan(plan, choice('even turning'), { mPerMin: 3, seed: 5 })).toEqual(one);
    expect(simulatePlan(plan, choice('even turning'), { mPerMin: 3, seed: 6 })).not.toEqual(one);
  });

  it.each(Object.keys(CHOICES).filter((name) => name !== 'shop routine'))(
    '%s: no late call, no wrong number, never two at once, no mark passed over, stops and all',
    (name) => {
      for (let seed = 1; seed <= 6; seed += 1) {
        const stops = [
          { atMm: 130 * seed, forMs: 3000 },
          { atMm: 1300, forMs: 1500 },
        ];
        expect(faultsOf(plan, simulatePlan(plan, choice(name), { mPerMin: 2 + 0.5 * seed, seed, stops }))).toEqual([]);
      }
    },
  );

  it('at 3 m/min leaves a third, a sixth and a tenth of what the shop routine leaves', () => {
    const shop = rmsOf('shop routine');
    expect(rmsOf('even turning')).toBeLessThan(shop / 3);
    expect(rmsOf('following on the readout')).toBeLessThan(shop / 6);
    const onSensor = rmsOf('following on a tilt sensor');
    expect(onSensor).toBeLessThan(shop / 10);
    expect(onSensor).toBeLessThan(0.15);
  });
});
