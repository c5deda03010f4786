import { makePlan } from '../../server/core/makePlan.ts';
import type { Plan } from '../../server/core/plan/plan.ts';
import { chance, fairFrame, normal, toHalf } from '../core/frame/fairFrames.ts';
import { aJob } from '../kit/aJob.ts';

const FIRST_SEED = 4000;

/** Plans of random fair frames, picked up by hand to half a degree at twelve places. The same ones each time. */
export const randomPlans = (count: number): readonly Plan[] => Array.from({ length: count }, (_, draw) => drawn(draw));

/** The first `count` of them that are fit, and those that were drawn in between and are not. */
export function randomPlansThat(
  isFit: (plan: Plan) => boolean,
  count: number,
): { readonly fit: readonly Plan[]; readonly setAside: readonly Plan[] } {
  const fit: Plan[] = [];
  const setAside: Plan[] = [];
  for (let draw = 0; fit.length < count; draw += 1) {
    const plan = drawn(draw);
    (isFit(plan) ? fit : setAside).push(plan);
  }
  return { fit, setAside };
}

function drawn(draw: number): Plan {
  const next = chance(FIRST_SEED + draw);
  const frame = fairFrame(next, 12);
  const rows = frame.girthsMm.map((girthMm) => ({
    girthMm,
    bevelDeg: toHalf(frame.bevelDeg(girthMm) + 0.3 * normal(next)),
    weight: 1,
  }));
  const job = aJob({ shape: { kind: 'pick-up', file: 'pickup.csv', rows, errorDeg: 0.5 } });
  const made = makePlan(job);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value;
}
