/** Printing in a thread of its own, so that a run in progress never waits for it. */
import { Piscina } from 'piscina';
import type { PaperTask } from '../wire/request/papers.ts';

const DOOR = new URL('./paper-door.mjs', import.meta.url);
const IDLE_MS = 60_000;

interface Press {
  /** The bytes of the PDF; rejects only if the drawing itself breaks. */
  print(task: PaperTask): Promise<Uint8Array>;
  close(): Promise<void>;
}

/** The thread is started with the first paper, and ended when none has been wanted for a while. */
export function createPress(): Press {
  const thread = new Piscina<PaperTask, Uint8Array>({
    minThreads: 0,
    maxThreads: 1,
    idleTimeout: IDLE_MS,
    // Whatever the program itself was started with (a debugger, a loader) is not for the thread.
    execArgv: [],
  });
  // A thread that dies with a paper rejects that paper; the next one gets a new thread.
  thread.on('error', () => {});
  return {
    print: (task) => thread.run(task, { filename: DOOR.href, name: 'makePaper' }),
    close: () => thread.destroy(),
  };
}
