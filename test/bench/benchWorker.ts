/** What a thread of the long benches does. The plans that its tasks speak of by their number come once, with the thread. */
import { workerData } from 'piscina';
import type { Plan } from '../../server/core/plan/plan.ts';
import { type CellRuns, runsOfCell } from './cell.ts';
import { type Tally, type TallyRuns, tallied } from './tally.ts';

const plans = workerData as readonly Plan[];
const runCell = runsOfCell(plans);
const tally = tallied(plans);

export const cellsOf = (task: CellRuns): ReturnType<typeof runCell> => runCell(task);
export const tallyOf = (task: TallyRuns): Tally => tally(task);
