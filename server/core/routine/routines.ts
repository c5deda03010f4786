/** All the routines: the one list that everything asks. A new one stands in a file of its own and here. */

import { DEGREE_BY_DEGREE } from './degreeByDegree.ts';
import { EVEN_TURNING } from './evenTurning.ts';
import { FOLLOWING } from './following.ts';
import { MARK_BY_MARK } from './markByMark.ts';
import type { PlannedRoutine } from './plannedRoutine.ts';
import { ROUTINES, type Routine } from './routine.ts';

const BY_NAME: Readonly<Record<Routine, PlannedRoutine>> = {
  'mark by mark': MARK_BY_MARK,
  'even turning': EVEN_TURNING,
  'degree by degree': DEGREE_BY_DEGREE,
  following: FOLLOWING,
};

export const routineNamed = (name: Routine): PlannedRoutine => BY_NAME[name];

/** Those that need a count of travel, in the order of what they ask of the people. */
export const ROUTINES_BY_TRAVEL: readonly Routine[] = ROUTINES.filter((name) => routineNamed(name).needsTravel);
