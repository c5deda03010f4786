import type { Job } from '../../server/core/job.ts';
import { makePlan } from '../../server/core/makePlan.ts';
import type { Plan } from '../../server/core/plan/plan.ts';

/** The plan of a job that can be planned. */
export function planned(job: Job): Plan {
  const made = makePlan(job);
  if (!made.ok) throw new Error(`the job cannot be planned: ${JSON.stringify(made.problems)}`);
  return made.value;
}
