/** Planning in a thread of its own, so that a run in progress never waits for it. */
import { Piscina } from 'piscina';
import type { Problem, Result } from '../core/errors.ts';
import type { SavedPiece } from '../core/sawn/savePiece.ts';
import type { TrialMade, TrialTold } from '../wire/job/trialJob.ts';
import type { SaveRequest, TrialMeasuredRequest, TrialRequest } from '../wire/request/sawnRequests.ts';
import type { PlanOutcome, PlanTask, PlanTextOutcome } from './planWorker.ts';

const DOOR = new URL('./plan-door.mjs', import.meta.url);
const PLAN_LIMIT_S = 30;
/** More than this waiting is not a workshop any more. */
const WAITING_AT_MOST = 32;

interface Planner {
  /** Never rejects for what the user gave; rejects only if the thread itself breaks. */
  plan(task: PlanTask): Promise<PlanOutcome>;
  planText(task: PlanTask): Promise<PlanTextOutcome>;
  /** What the thread does beside: a piece to be saved, a trial, what a trial told. */
  save(task: SaveRequest): Promise<Result<SavedPiece>>;
  trial(task: TrialRequest): Promise<Result<TrialMade>>;
  correct(task: TrialMeasuredRequest): Promise<Result<TrialTold>>;
  close(): Promise<void>;
}

/** Starts the thread. `limitS`: a plan that is not made by then is cut off, in seconds. */
export function createPlanner({ limitS = PLAN_LIMIT_S }: { readonly limitS?: number } = {}): Planner {
  // The door is named job by job: a pool that is given it here never starts another thread once one fails to load it.
  const threads = new Piscina<unknown, unknown>({
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
  async function doNow<T>(name: string, task: unknown): Promise<T | Refused> {
    const limit = AbortSignal.timeout(limitS * 1000);
    try {
      return (await threads.run(task, { filename: DOOR.href, name, signal: limit })) as T;
    } catch (error) {
      if (limit.aborted)
        return refusal('cannot-be-met', `no plan after ${limitS} s`, 'a job with fewer rows or fewer marks');
      throw error;
    }
  }

  function take<T>(name: string, task: unknown): Promise<T | Refused> {
    if (taken > WAITING_AT_MOST)
      return Promise.resolve(
        refusal('too-many', `${WAITING_AT_MOST} plans waiting`, 'fewer at a time: try again when these are made'),
      );
    taken += 1;
    const made = atWork
      .then(() => doNow<T>(name, task))
      .finally(() => {
        taken -= 1;
      });
    atWork = made.catch(() => {});
    return made;
  }

  return {
    plan: (task) => take<PlanOutcome>('planJob', task),
    planText: (task) => take<PlanTextOutcome>('planJobAsText', task),
    save: (task) => take<Result<SavedPiece>>('savePieceOf', task),
    trial: (task) => take<Result<TrialMade>>('makeTrial', task),
    correct: (task) => take<Result<TrialTold>>('correctByTrial', task),
    close: () => threads.destroy(),
  };
}

type Refused = Extract<PlanOutcome, { readonly ok: false }>;

const refusal = (code: Problem['code'], found: string, wanted: string): Refused => ({
  ok: false,
  problems: [{ code, at: {}, found, wanted }],
});
