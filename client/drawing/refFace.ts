import type { Plan } from '../../server/core/plan/plan.ts';
import { isFenced } from '../../server/core/text/leadingEndText.ts';

/** What lies along the side of the stock that everything is measured from: no fence stands there where a line is followed. */
export const refFace = (plan: Pick<Plan, 'rip'>): 'fence' | 'reference face' =>
  isFenced(plan) ? 'fence' : 'reference face';
