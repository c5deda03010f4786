import { MARK_BY_MARK } from '../../routine/markByMark.ts';
import type { PlannedRoutine } from '../../routine/plannedRoutine.ts';
import { routineNamed } from '../../routine/routines.ts';
import type { RunState } from '../engine/state.ts';

/** The routine that is in force: the run's own while travel is counted; without a count there are only the marks. */
export const routineNow = ({ setup, reckoning }: Pick<RunState, 'setup' | 'reckoning'>): PlannedRoutine =>
  reckoning?.by === 'travel' ? routineNamed(setup.routine) : MARK_BY_MARK;
