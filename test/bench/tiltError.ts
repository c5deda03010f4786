import type { Plan } from '../../server/core/plan.ts';
import { makeSetup } from '../../server/core/run/makeSetup.ts';
import { CHOICES, SHOP_ROUTINE } from '../../server/core/simulate/choices.ts';
import { simulatorOf } from '../../server/core/simulate/simulatePlan.ts';
import { demoPlan } from '../kit/demoPlan.ts';
import { randomPlans } from './randomPlans.ts';

const FEEDS_M_PER_MIN = [1, 2, 3, 4, 6];
/** The feed at which the routines are held against each other. */
const GOAL_M_PER_MIN = 3;
const RUNS_OF_DEMO = 50;
const NAME = 45;
const CELL = 26;

/** The tilt changes faster somewhere than this crew turns the wheel: no routine can go with it at that feed. */
function isTooFast(plan: Plan, mPerMin: number): boolean {
  const { positionsMm, tiltsDeg } = makeSetup(plan, 'pair', {}).profile;
  const degPerS = positionsMm.slice(1).map((to, index) => {
    const slope = ((tiltsDeg[index + 1] ?? 0) - (tiltsDeg[index] ?? 0)) / (to - (positionsMm[index] ?? to));
    return Math.abs(slope) * ((mPerMin * 1000) / 60);
  });
  return Math.max(...degPerS) > plan.crew.turnsPerS * plan.saw.degreesPerTurn;
}

/** Tilt error against feed for each routine, beside the plain shop routine with the same modelled hand and the same seeds. */
export async function tiltError(): Promise<void> {
  const demo = await demoPlan();
  console.log(`the demo frame, ${RUNS_OF_DEMO} runs each, pace limit ${demo.pace.limitMPerMin.toFixed(2)} m/min`);
  table([demo], RUNS_OF_DEMO);
  const others = randomPlans(50);
  const limits = others.map(({ pace }) => pace.limitMPerMin).sort((a, b) => a - b);
  const spread = [limits[0], limits[limits.length >> 1], limits.at(-1)].map((limit) => limit?.toFixed(2)).join(', ');
  console.log(`\n${others.length} random fair frames, a run each; least, median, greatest pace limit ${spread} m/min`);
  table(others, 1);
  const slow = FEEDS_M_PER_MIN.map(
    (feed) => `${others.filter((plan) => isTooFast(plan, feed)).length} at ${feed} m/min`,
  );
  console.log(`frames that change faster somewhere than this crew turns the wheel: ${slow.join(', ')}`);
  const able = others.filter((plan) => !isTooFast(plan, GOAL_M_PER_MIN));
  console.log(`\nthe ${able.length} of them that the wheel can go with at ${GOAL_M_PER_MIN} m/min`);
  table(able, 1);
  console.log(
    '\nrms (worst) in degrees at the blade, worst gap at the planking in mm, rms as a share of the shop routine at the same feed',
  );
}

function table(plans: readonly Plan[], runsEach: number): void {
  console.log(`${''.padEnd(NAME)}${FEEDS_M_PER_MIN.map((feed) => `${feed} m/min`.padStart(CELL)).join('')}`);
  const simulators = plans.map(simulatorOf);
  const rmsOfShop = new Map<number, number>();
  for (const [name, choice] of Object.entries(CHOICES)) {
    const cells = FEEDS_M_PER_MIN.map((mPerMin) => {
      const runs = simulators.flatMap((simulate, plan) =>
        Array.from({ length: runsEach }, (_, run) => simulate(choice, { mPerMin, seed: 101 * (plan + run) + 7 })),
      );
      const rms = Math.sqrt(runs.reduce((sum, { rmsDeg }) => sum + rmsDeg ** 2, 0) / runs.length);
      if (name === SHOP_ROUTINE) rmsOfShop.set(mPerMin, rms);
      const worst = Math.max(...runs.map(({ worstDeg }) => worstDeg)).toFixed(1);
      const gap = Math.max(...runs.map(({ worstGapMm }) => worstGapMm)).toFixed(1);
      const share = (rms / (rmsOfShop.get(mPerMin) ?? rms)).toFixed(2);
      return `${rms.toFixed(3)} (${worst}) ${gap} x${share}`.padStart(CELL);
    });
    console.log(`${name.padEnd(NAME)}${cells.join('')}`);
  }
}
