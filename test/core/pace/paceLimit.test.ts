/**
 * The computed limit is where the simulated error leaves the tolerance, within 15 %: a few frames here, more of them by
 * `npm run bench -- pace-limit`, which tells what the tolerance is.
 */
import { expect, test } from 'vitest';
import type { Plan } from '../../../server/core/plan/plan.ts';
import { CHOICES } from '../../../server/core/simulate/choices.ts';
import { randomPlans } from '../../bench/randomPlans.ts';
import { demoPlan } from '../../kit/demoPlan.ts';
import { leavesAtShare } from './leaves.ts';

const plans: readonly Plan[] = [await demoPlan(), ...randomPlans(12)];
/** The demo, and frames of different kinds: limited by words, wheel, twist and the start of the feed; numbers of random plans. */
const FRAMES = [0, 2, 4, 9, 10];

test.each([
  ['mark by mark on the pedal', 1.15],
  ['mark by mark on scanned marks', 1.15],
  // A call whose place is in doubt begins earlier, which the limit does not count: the error leaves later, on the safe side.
  ['mark by mark on a measuring wheel', 1.25],
  ['even turning', 1.15],
  ['degree by degree', 1.15],
  ['following on the readout', 1.15],
  ['following on a tilt sensor', 1.15],
] as const)('%s leaves the tolerance at its limit', (name, most) => {
  const choice = CHOICES[name];
  if (choice === undefined) throw new Error(`no routine ${name}`);
  for (const frame of FRAMES) {
    const plan = plans[frame];
    if (plan === undefined) throw new Error(`no frame ${frame}`);
    const share = leavesAtShare(plan, choice);
    expect(share, `frame ${frame}: share ${share.toFixed(2)}`).toBeGreaterThan(0.85);
    expect(share, `frame ${frame}: share ${share.toFixed(2)}`).toBeLessThanOrEqual(most);
  }
});
