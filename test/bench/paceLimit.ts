import type { Plan } from '../../server/core/plan/plan.ts';
import { CHOICES, SHOP_ROUTINE } from '../../server/core/simulate/choices.ts';
import { leavesAtShare } from '../core/pace/leaves.ts';
import { demoPlan } from '../kit/demoPlan.ts';
import { randomPlans } from './randomPlans.ts';

const RANDOM_FRAMES = 20;
const WITHIN = 0.15;

const HEADER = `The feed at which the simulated tilt leaves the tolerance, as a share of the plan's limit for the routine.
Out of tolerance: being late alone makes the tilt stray by more than half a step of the readout.
- Turning from mark to mark: at the marks, against the figure called, so that its rounding is no lateness.
- Following: everywhere, against the exact bevel. Degree by degree: everywhere, beyond half of the whole degree that is held.
The hand is the usual one without chance or looseness; the sources make no errors. One single feed at which two things fall
together by chance is passed over: half a hundredth faster it must be out of tolerance too.
- Where marks are scanned or travel is counted, mark by mark is judged beyond what is late at half of the limit or less:
  those calls are timed to be there just in time at every feed.
Shares above 1 are on the safe side. They are greatest where the slowest interval has little or nothing to turn (a call that
comes late there leaves nothing to see), and where the modelled hand hurries after calls that came close upon each other.
`;

/**
 * Where the simulated error leaves the tolerance, for the demo frame and random ones. The formulas were tuned with the first
 * forty in sight; the last twenty were first looked at when they were done.
 */
export async function paceLimit(): Promise<void> {
  console.log(HEADER);
  const random = randomPlans(3 * RANDOM_FRAMES);
  table('the demo, 20 frames', [await demoPlan(), ...random.slice(0, RANDOM_FRAMES)]);
  console.log('');
  table('20 fresh frames', random.slice(2 * RANDOM_FRAMES));
}

function table(title: string, plans: readonly Plan[]): void {
  row(title, ['first', 'least', 'median', 'greatest', `within ${WITHIN * 100} %`]);
  for (const [name, choice] of Object.entries(CHOICES)) {
    if (name === SHOP_ROUTINE) continue;
    const shares = plans.map((plan) => leavesAtShare(plan, choice));
    const sorted = shares.toSorted((a, b) => a - b);
    const told = [shares[0], sorted[0], sorted[sorted.length >> 1], sorted.at(-1)].map(
      (share) => share?.toFixed(2) ?? '',
    );
    row(name, [...told, `${shares.filter((share) => Math.abs(share - 1) <= WITHIN).length} of ${shares.length}`]);
  }
}

const row = (name: string, cells: readonly string[]): void =>
  console.log(`${name.padEnd(45)}${cells.map((cell) => cell.padStart(14)).join('')}`);
