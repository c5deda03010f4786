import { progressOn } from '../../server/commands/door/progress.ts';
import type { Plan } from '../../server/core/plan/plan.ts';
import { shareOut } from '../../server/workers/shareOut.ts';

const DOOR = new URL('./bench-door.mjs', import.meta.url);

/** A bench's tasks on all cores, in their order again, with its progress on the error stream. */
export async function overCores<Task extends { readonly runs: number }, Outcome>(
  name: 'cellsOf' | 'tallyOf',
  plans: readonly Plan[],
  tasks: readonly Task[],
): Promise<readonly Outcome[]> {
  const runs = tasks.reduce((sum, task) => sum + task.runs, 0);
  const progress = progressOn(process.stderr, 'runs', runs);
  const startedMs = performance.now();
  try {
    const outcomes = await shareOut<Task, Outcome>({
      door: DOOR,
      name,
      tasks,
      common: plans,
      onDone: (task) => progress.done(task.runs),
    });
    const tookS = (performance.now() - startedMs) / 1000;
    console.log(`${runs} runs in ${tookS.toFixed(1)} s, ${(runs / tookS).toFixed(0)} a second`);
    return outcomes;
  } finally {
    progress.end();
  }
}
