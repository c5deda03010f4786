import { usualHand, withoutChance } from '../../server/core/hand/traits.ts';
import type { Plan } from '../../server/core/plan.ts';
import { CHOICES, SHOP_ROUTINE, type SimulatedChoice } from '../../server/core/simulate/choices.ts';
import { simulatorOf } from '../../server/core/simulate/simulatePlan.ts';
import { NO_FAULTS } from '../../server/core/simulate/simulation.ts';
import { demoPlan } from '../kit/demoPlan.ts';
import { randomPlans } from './randomPlans.ts';

const RANDOM_FRAMES = 20;
const FROM = 0.4;
const TO = 3;
const BY = 1.03;
const WITHIN = 0.15;

/**
 * The feed at which the simulated tilt really leaves the tolerance at some mark (a whole step of the readout: half for the
 * rounding of the call and half for being late), beside the plan's pace limit. The hand is the usual one without chance, and the
 * sources make no errors, so that only words, reaction and wheel are in it.
 */
export async function paceLimit(): Promise<void> {
  const plans = [await demoPlan(), ...randomPlans(RANDOM_FRAMES)];
  console.log(
    `the feed that leaves the tolerance, as a share of the plan's pace limit; ${RANDOM_FRAMES} random frames`,
  );
  row('', ['demo', 'least', 'median', 'greatest', `within ${WITHIN * 100} %`]);
  for (const [name, choice] of Object.entries(CHOICES)) {
    if (name === SHOP_ROUTINE) continue;
    const shares = plans.map((plan) => leavesAt(plan, choice) / plan.pace.limitMPerMin);
    const sorted = shares.toSorted((a, b) => a - b);
    const told = [shares[0], sorted[0], sorted[sorted.length >> 1], sorted.at(-1)].map((share) =>
      share === undefined || share >= TO ? `over ${TO}` : share.toFixed(2),
    );
    row(name, [...told, `${shares.filter((share) => Math.abs(share - 1) <= WITHIN).length} of ${shares.length}`]);
  }
}

const row = (name: string, cells: readonly string[]): void =>
  console.log(`${name.padEnd(45)}${cells.map((cell) => cell.padStart(14)).join('')}`);

function leavesAt(plan: Plan, choice: SimulatedChoice): number {
  const simulate = simulatorOf(plan);
  const hand = withoutChance(usualHand(plan.crew, plan.saw.degreesPerTurn, plan.saw.readoutDeg));
  const limit = plan.pace.limitMPerMin;
  for (let mPerMin = FROM * limit; mPerMin < TO * limit; mPerMin *= BY) {
    const { arrivals } = simulate(choice, { mPerMin, seed: 1, hand, faults: NO_FAULTS });
    if (arrivals.some(({ errorDeg }) => errorDeg !== null && Math.abs(errorDeg) > plan.saw.readoutDeg)) return mPerMin;
  }
  return TO * limit;
}
