import type { Plan } from '../plan.ts';

/** Which way round the stock goes, in a sentence, the same on paper and screen: turned end for end it is scrap. */
export function whichWaySentence(plan: Pick<Plan, 'leads' | 'thickEdge' | 'saw'>): string {
  const follows = plan.leads === 'heel' ? 'head' : 'heel';
  const fence = plan.saw.leans === 'right' ? 'left' : 'right';
  return (
    `The ${plan.leads} leads: feed the stock ${plan.leads} end first, the ${follows} end follows, with the ${plan.thickEdge} ` +
    `edge up and the fence on the sawyer's ${fence}. The top of the blade leans to the ${plan.saw.leans}. ` +
    `The half at the fence becomes the outer wedge, thicker at its ${plan.thickEdge} edge.`
  );
}
