import { makePlan } from '../../server/core/makePlan.ts';
import type { Plan } from '../../server/core/plan/plan.ts';
import { loadDemo } from '../../server/demo/loadDemo.ts';
import { parseJob } from '../../server/wire/job/parseJob.ts';

/** The demo job, planned. */
export async function demoPlan(): Promise<Plan> {
  const { job, files } = await loadDemo();
  const parsed = parseJob(job, files);
  const made = parsed.ok ? makePlan(parsed.value) : parsed;
  if (!made.ok) throw new Error(`the demo cannot be planned: ${JSON.stringify(made.problems)}`);
  return made.value;
}
