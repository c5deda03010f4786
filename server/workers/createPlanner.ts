/** Planning in a thread of its own, so that a run in progress never waits for it. */
import { Piscina } from 'piscina';
import type { Problem } from '../core/errors.ts';
import type { PlanOutcome, PlanTask } from './planWorker.ts';

const DOOR = new URL('./plan-door.mjs', import.meta.url);
const PLAN_LIMIT_S = 30;
/** More than this waiting is not a workshop any more. */
const WAITING_AT_MOST = 32;

export interface Planner {
  /** Never rejects for what the user gave; rejects only if the thread itself breaks. */
  plan(task: PlanTask): Promise<PlanOutcome>;
  close(): Promise<void>;
}

/** Starts the thread. `limitS`: a plan that is not made by then is cut off, in seconds. */
export function createPlanner({ limitS = PLAN_LIMIT_S }: { readonly limitS?: number } = {}): Planner {
  // The door is named job by job: a pool that is given it here never starts another thread once one fails to load it.
  const threads = new Piscina<PlanTask, PlanOutcome>({
    minThreads: 1,
    maxThreads: 1,
    // Whatever the program itself was started with (a debugger, a loader) is not for the thread.
    execArgv: [],
  });
  // A thread that dies with a job rejects that job; the next one gets a new thread.
  threads.on('error', () => {});
  let atWork: Promise<unknown> = Promise.resolve();
  let taken = 0;

  /** The time is the plan's own: waiting for others is not in it. */
  async function planNow(task: PlanTask): Promise<PlanOutcome> {
    const limit = AbortSignal.timeout(limitS * 1000);
    try {
      return await threads.run(task, { filename: DOOR.href, name: 'planJob', signal: limit });
    } catch (error) {
      if (limit.aborted)
        return refusal('cannot-be-met', `no plan after ${limitS} s`, 'a job with fewer rows or fewer marks');
      throw error;
    }
  }

  return {
    plan(task) {
      if (taken > WAITING_AT_MOST)
        return Promise.resolve(
          refusal('too-many', `${WAITING_AT_MOST} plans waiting`, 'fewer at a time: try again when these are made'),
        );
      taken += 1;
      const made = atWork
        .then(() => planNow(task))
        .finally(() => {
          taken -= 1;
        });
      atWork = made.catch(() => {});
      return made;
    },
    close: () => threads.destroy(),
  };
}

const refusal = (code: Problem['code'], found: string, wanted: string): PlanOutcome => ({
  ok: false,
  problems: [{ code, at: {}, found, wanted }],
});
