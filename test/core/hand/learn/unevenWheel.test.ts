import { expect, it } from 'vitest';
import { learnHand } from '../../../../server/core/hand/learn/learnHand.ts';
import { usualHand } from '../../../../server/core/hand/traits.ts';
import type { Plan } from '../../../../server/core/plan/plan.ts';
import { demoPlan } from '../../../kit/demoPlan.ts';
import { modelledRecord } from '../../../kit/modelledHand.ts';

/** A turn is worth 0.75 degrees near square and 3 at the top. */
const TABLE = [
  [-4, -3],
  [0, 0],
  [4, 3],
  [6, 6],
  [8, 12],
  [10, 18],
] as const;

it('a hand’s turning rate is learnt in turns, where a turn is not worth the same everywhere', async () => {
  const demo = await demoPlan();
  const plan: Plan = { ...demo, saw: { ...demo.saw, turnsTable: TABLE } };
  const traits = usualHand({ reactionS: 0.4, turnsPerS: 0.6 }, plan.saw.degreesPerTurn, plan.saw.readoutDeg, plan.saw);
  const learnt = [1, 2, 3].map((seed) => learnHand(modelledRecord({ plan, traits, seed, mPerMin: 0.8 })).turnsPerS);
  const rates = learnt.flatMap((each) => (each.ok ? [each.estimate.median] : []));
  expect(rates.length).toBeGreaterThan(0);
  for (const rate of rates) expect(Math.abs(rate / 0.6 - 1)).toBeLessThan(0.15);
});
