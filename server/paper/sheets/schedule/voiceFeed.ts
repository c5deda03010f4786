/**
 * How fast it may be fed where a person calls. The plan's limit counts words, the tilt hand's reaction and the wheel from the moment
 * at which the mark is at the blade; a caller first has to see that it is. He is taken to be as quick as the tilt hand: an
 * assumption, no source.
 */

import type { Plan } from '../../../core/plan/plan.ts';
import { crewTime, MM_PER_S_TO_M_PER_MIN } from '../../../core/routine/crewTime.ts';

export const callerReactionS = ({ crew }: Plan): number => crew.reactionS;

/** The slowest interval's, and never more than the plan's own limit, which knows the saw's too. */
export function voiceFeedMPerMin(plan: Plan): number {
  const limits = plan.pace.intervals.map(
    ({ lengthMm, wordsS, reactionS, wheelS }) =>
      (lengthMm * MM_PER_S_TO_M_PER_MIN) / (callerReactionS(plan) + crewTime(wordsS, reactionS, wheelS)),
  );
  return Math.min(plan.pace.limitMPerMin, ...limits);
}
