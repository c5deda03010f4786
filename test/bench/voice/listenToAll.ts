import { progressOn } from '../../../server/commands/door/progress.ts';
import { shareOut } from '../../../server/workers/shareOut.ts';
import type { Listened, Listening } from './listenTo.ts';

const DOOR = new URL('./listenDoor.mjs', import.meta.url);
/** The recogniser runs beside its thread: two keep two cores busy. */
const THREADS = 2;

/** What was heard, in the order of the tasks; says on stderr how far it is. */
export async function listenToAll(all: readonly Listening[]): Promise<readonly Listened[]> {
  const calls = ({ texts, places, takes }: Listening): number => texts.length * places.length * takes;
  const progress = progressOn(
    process.stderr,
    'calls',
    all.reduce((sum, task) => sum + calls(task), 0),
  );
  try {
    return await shareOut<Listening, Listened>({
      door: DOOR,
      name: 'listenTo',
      tasks: all,
      common: null,
      threads: THREADS,
      onDone: (task) => progress.done(calls(task)),
    });
  } finally {
    progress.end();
  }
}
