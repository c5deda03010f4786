import type { Plan } from '../core/plan/plan.ts';
import type { RunFigures } from '../core/simulate/outcomeFigures.ts';
import { type SomeRuns, someRunsOf } from '../core/simulate/someRuns.ts';
import { shareOut } from './shareOut.ts';

const DOOR = new URL('./simulate-door.mjs', import.meta.url);
/** So few are done sooner than a thread is started. */
const HERE_AT_MOST = 200;

/**
 * Simulates runs of a plan, over all cores where that is worth it. One list of figures for each entry of `asked`, in its order;
 * the same whatever the number of threads. `onDone` is told how many runs are newly done.
 */
export async function simulateRuns(
  plan: Plan,
  asked: readonly SomeRuns[],
  { threads, onDone = () => {} }: { readonly threads?: number; readonly onDone?: (runs: number) => void } = {},
): Promise<readonly (readonly RunFigures[])[]> {
  const parts = asked.map(inParts);
  const tasks = parts.flat();
  const runs = tasks.reduce((sum, task) => sum + task.runs, 0);
  const figures =
    runs <= HERE_AT_MOST
      ? tasks.map(someRunsOf(plan))
      : await shareOut<SomeRuns, readonly RunFigures[]>({
          door: DOOR,
          name: 'simulateSome',
          tasks,
          common: plan,
          ...(threads === undefined ? {} : { threads }),
          onDone: (task) => onDone(task.runs),
        });
  let first = 0;
  return parts.map(({ length }) => {
    first += length;
    return figures.slice(first - length, first).flat();
  });
}

/** Small enough that progress is seen, and that no core waits long for another at the end. */
const RUNS_OF_A_PART = 20;

function inParts(some: SomeRuns): readonly SomeRuns[] {
  return Array.from({ length: Math.ceil(some.runs / RUNS_OF_A_PART) }, (_, part) => ({
    ...some,
    fromSeed: some.fromSeed + part * RUNS_OF_A_PART,
    runs: Math.min(RUNS_OF_A_PART, some.runs - part * RUNS_OF_A_PART),
  }));
}
