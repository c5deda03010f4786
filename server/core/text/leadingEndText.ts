import { degText } from '../figures/degrees.ts';
import type { Plan } from '../plan/plan.ts';
import type { HandChangePlan } from '../plan/ripPlan.ts';
import { fenceSide } from '../rip/leadingEnd.ts';

/** Where a line is followed no fence stands at the stock: its face on that side is the one that is measured from. */
export const isFenced = ({ rip }: Pick<Plan, 'rip'>): boolean => rip?.feeds !== 'along a line';

/** Which way round the stock goes, in a sentence, the same on paper and screen: turned end for end it is scrap. */
export function whichWaySentence(plan: Pick<Plan, 'leads' | 'thickEdge' | 'saw' | 'rip'>): string {
  const follows = plan.leads === 'heel' ? 'head' : 'heel';
  const side = fenceSide(plan.saw);
  const face = isFenced(plan) ? 'fence' : 'reference face';
  return (
    `The ${plan.leads} leads: feed the stock ${plan.leads} end first, the ${follows} end follows, with the ${plan.thickEdge} ` +
    `edge up and the ${face} on the sawyer's ${side}. The top of the blade leans to the ${plan.saw.leans}. ` +
    `The half at the ${face} becomes the outer wedge, thicker at its ${plan.thickEdge} edge.`
  );
}

/** What to write on the stock before it is sawn, so that neither half can be taken for the other or turned afterwards. */
export const chalkSentence = (plan: Pick<Plan, 'leads' | 'thickEdge' | 'rip'>): string =>
  `Before sawing write on the stock: ${plan.leads.toUpperCase()} on the end that leads, ${plan.thickEdge.toUpperCase()} along the ` +
  `edge that is up, OUTER on the ${isFenced(plan) ? 'face at the fence' : 'reference face'} and INNER on the face away from it. ` +
  'Then the halves change places, and nothing is ' +
  'turned: heel stays at the heel, forward edge forward, flats to the stack, sawn faces outward.';

/** What to do where the bevel changes hand, for one such place. */
export function handChangeSentence(
  { afterMark, stockMm, into, tiltDeg, isReached, alone }: HandChangePlan,
  plan: Pick<Plan, 'leads' | 'saw'>,
  length: (mm: number) => string,
): string {
  const place = `After mark ${afterMark}, ${length(stockMm)} along the stock from mark 1, the bevel passes through square and is ${into} from there toward the head`;
  const most = degText(tiltDeg, 1);
  if (isReached)
    return (
      `${place}: the saw goes through zero to the other side, to ${most} at most, as the marks say. The stock stays as it lies and ` +
      `the ${plan.leads} still leads; where the tilt is below zero the outer wedge is thicker at its lower edge. Do not stop, turn ` +
      'or lift it there. Check the readout at zero, and tell the tilt hand before the cut that figures below zero will come.'
    );
  return (
    `${place}: the saw would have to tilt to ${most} and reaches only ${plan.saw.tiltDeg[0]}°. Cross-cut the stock there before the ` +
    'rip, with enough left on both lengths for a scarf of 8 to 12 times the thickness, and rip each as a job of its own, from its ' +
    `own marks. The length with the lesser bevels is laid the other way: its ${alone.leads} leads, its ${alone.upEdge} edge up.`
  );
}
