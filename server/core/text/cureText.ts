/** What is written of cures and of a run that was made in spite of what forbids it: the same on paper, in a terminal and on a page. */

import type { PlanWarning } from '../plan/cure.ts';
import type { Plan } from '../plan/plan.ts';

export const DO_NOT_SAW = 'Do not saw before this is settled';

/** Undefined where no cure was found. */
export function cureSentence({ cures = [] }: Pick<PlanWarning, 'cures'>): string | undefined {
  if (cures.length === 0) return undefined;
  const helps = cures.length === 1 ? 'this helps' : 'each of these helps by itself';
  return `A new plan was tried. In it ${helps}: ${cures.map(({ text }) => text).join(' Or: ')}`;
}

/** Undefined where nothing was forbidden. */
export const despiteSentence = ({ despite }: Pick<Plan, 'despite'>): string | undefined =>
  despite === undefined ? undefined : `The run was made all the same. The reason given: “${despite.words}”`;
