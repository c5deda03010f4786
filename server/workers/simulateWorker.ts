/** What a simulating thread does: some runs of a plan in, their figures out. */
import { workerData } from 'piscina';
import type { Plan } from '../core/plan/plan.ts';
import type { RunFigures } from '../core/simulate/outcomeFigures.ts';
import { type SomeRuns, someRunsOf } from '../core/simulate/someRuns.ts';

const runsOf = someRunsOf(workerData as Plan);

export const simulateSome = (task: SomeRuns): readonly RunFigures[] => runsOf(task);
