import type { Plan } from '../../server/core/plan.ts';
import { CHOICES } from '../../server/core/simulate/choices.ts';
import { simulatePlan } from '../../server/core/simulate/simulatePlan.ts';
import { demoPlan } from '../kit/demoPlan.ts';
import { randomPlans } from './randomPlans.ts';

const FEEDS_M_PER_MIN = [1, 2, 3, 4, 6];
const RUNS_OF_DEMO = 50;

/** Tilt error against feed for each routine, beside the plain shop routine with the same modelled hand and the same seeds. */
export async function tiltError(): Promise<void> {
  const demo = await demoPlan();
  console.log(`the demo frame, ${RUNS_OF_DEMO} runs each: rms (worst) in degrees, worst gap at the planking in mm`);
  table(Array.from({ length: RUNS_OF_DEMO }, () => demo));
  const others = randomPlans(50);
  console.log(`\n${others.length} random fair frames, a run each`);
  table(others);
}

function table(plans: readonly Plan[]): void {
  console.log(`${''.padEnd(36)}${FEEDS_M_PER_MIN.map((feed) => `${feed} m/min`.padStart(22)).join('')}`);
  let shop: readonly number[] = [];
  for (const [name, choice] of Object.entries(CHOICES)) {
    const cells = FEEDS_M_PER_MIN.map((mPerMin) => {
      const runs = plans.map((plan, index) => simulatePlan(plan, choice, { mPerMin, seed: 101 * index + 7 }));
      const rms = Math.sqrt(runs.reduce((sum, { rmsDeg }) => sum + rmsDeg ** 2, 0) / runs.length);
      return {
        rms,
        worst: Math.max(...runs.map(({ worstDeg }) => worstDeg)),
        gap: Math.max(...runs.map(({ worstGapMm }) => worstGapMm)),
      };
    });
    if (shop.length === 0) shop = cells.map(({ rms }) => rms);
    const text = cells.map(({ rms, worst, gap }, index) => {
      const share = (rms / (shop[index] ?? rms)).toFixed(2);
      return `${rms.toFixed(2)} (${worst.toFixed(1)}) ${gap.toFixed(1)} x${share}`.padStart(22);
    });
    console.log(`${name.padEnd(36)}${text.join('')}`);
  }
  console.log('x: the rms as a share of the shop routine at the same feed');
}
