/** What the planning thread does: a job and its files in, the plan or what is wrong out. */

import type { Problem } from '../core/errors.ts';
import { makePlan } from '../core/makePlan.ts';
import type { Plan } from '../core/plan.ts';
import { parseJob } from '../wire/parseJob.ts';

export interface PlanTask {
  readonly job: unknown;
  readonly files: Readonly<Record<string, string>>;
}
export type PlanOutcome =
  | { readonly ok: true; readonly plan: Plan }
  | { readonly ok: false; readonly problems: readonly Problem[] };

export function planJob({ job, files }: PlanTask): PlanOutcome {
  const parsed = parseJob(job, files);
  if (!parsed.ok) return parsed;
  const made = makePlan(parsed.value);
  return made.ok ? { ok: true, plan: made.value } : made;
}
