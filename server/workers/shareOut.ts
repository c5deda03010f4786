/** A long reckoning shared out over the machine's cores. */
import { availableParallelism } from 'node:os';
import { Piscina } from 'piscina';

interface SharedOut<Task> {
  /** The `.mjs` door of the threads, and the function of it that does a task. */
  readonly door: URL;
  readonly name: string;
  readonly tasks: readonly Task[];
  /** What every task needs: copied once to each thread, which finds it as Piscina's `workerData`. */
  readonly common: unknown;
  /** Default: one for each core. */
  readonly threads?: number;
  /** After each task, in whatever order they end. */
  readonly onDone?: (task: Task) => void;
}

/** Room for what a simulated run leaves behind, so that little time goes into clearing it away. */
const YOUNG_MB = 64;

/**
 * What comes of each task, in the order of the tasks, whatever the number of threads. Rejects with the first task that fails;
 * the others are given up then.
 */
export async function shareOut<Task, Outcome>({
  door,
  name,
  tasks,
  common,
  threads = availableParallelism(),
  onDone,
}: SharedOut<Task>): Promise<readonly Outcome[]> {
  const count = Math.max(1, Math.min(threads, tasks.length));
  const pool = new Piscina<Task, Outcome>({
    minThreads: count,
    maxThreads: count,
    // Whatever the program itself was started with (a debugger, a loader) is not for the threads.
    execArgv: [],
    workerData: common,
    resourceLimits: { maxYoungGenerationSizeMb: YOUNG_MB },
  });
  // A thread that dies with a task rejects that task.
  pool.on('error', () => {});
  try {
    return await Promise.all(
      tasks.map(async (task) => {
        const outcome = await pool.run(task, { filename: door.href, name });
        onDone?.(task);
        return outcome;
      }),
    );
  } finally {
    await pool.destroy();
  }
}
