import type { OtherRoutine } from '../plan/cure.ts';
import { forbiddingWarnings } from '../plan/forbids.ts';
import type { Plan } from '../plan/plan.ts';
import { ROUTINES_BY_TRAVEL } from '../routine/routines.ts';

/** The first routine in which the turn does not forbid the cut, at the crew's own feed. */
export function otherRoutine(plan: Plan): readonly OtherRoutine[] {
  const { routines } = plan.pace;
  const found = ROUTINES_BY_TRAVEL.find(
    (routine) =>
      forbiddingWarnings(plan, routine).every(({ code }) => code !== 'quick-turn') &&
      (routines?.[routine].limitMPerMin ?? Number.POSITIVE_INFINITY) >= plan.crew.feedMPerMin,
  );
  if (found === undefined || routines === undefined) return [];
  const text = `Where a measuring wheel counts the travel: the routine "${found}", which spreads every turn over its interval.`;
  return [{ kind: 'routine', text, routine: found, needs: 'measuring wheel' }];
}
