import { makePlan } from '../../server/core/makePlan.ts';
import type { Plan } from '../../server/core/plan.ts';
import { chance, fairFrame, normal, toHalf } from '../core/frame/fairFrames.ts';
import { aJob } from '../kit/aJob.ts';

/** Plans of random fair frames, picked up by hand to half a degree at twelve places. The same ones each time. */
export function randomPlans(count: number): readonly Plan[] {
  return Array.from({ length: count }, (_, seed) => {
    const next = chance(4000 + seed);
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
  });
}
