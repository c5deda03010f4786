/** What the planning thread does: a job and its files in, the plan or what is wrong out. */

import { planWithCures } from '../core/cures/tryCures.ts';
import type { Problem } from '../core/errors.ts';
import { namingTiltHand, type TiltHand, withTiltHand } from '../core/hand/tiltHand.ts';
import type { Job } from '../core/job.ts';
import type { Plan } from '../core/plan/plan.ts';
import { parseJob } from '../wire/job/parseJob.ts';
import { jobGiven } from '../wire/request/requests.ts';

export interface PlanTask {
  readonly job: unknown;
  readonly files: Readonly<Record<string, string>>;
  /** For whom of the crew; left out: the job's own figures. */
  readonly tiltHand?: TiltHand;
}
export type PlanOutcome =
  | { readonly ok: true; readonly plan: Plan }
  | { readonly ok: false; readonly problems: readonly Problem[] };

export type PlanTextOutcome =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly problems: readonly Problem[] };

export function planJob({ job, files, tiltHand }: PlanTask): PlanOutcome {
  const parsed = parseJob(jobGiven(job), files);
  if (!parsed.ok) return parsed;
  if (tiltHand === undefined) return planned(parsed.value);
  const made = planned(withTiltHand(parsed.value, tiltHand));
  return made.ok ? { ok: true, plan: namingTiltHand(made.plan, tiltHand) } : made;
}

/** The plan as JSON: so a long one costs the thread that asks for it nothing. */
export function planJobAsText(task: PlanTask): PlanTextOutcome {
  const made = planJob(task);
  return made.ok ? { ok: true, text: JSON.stringify(made.plan) } : made;
}

function planned(job: Job): PlanOutcome {
  const made = planWithCures(job);
  return made.ok ? { ok: true, plan: made.value } : made;
}
