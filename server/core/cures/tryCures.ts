/** Cures of the warnings that forbid the cut: what might help is planned, and is offered only where it does. */

import { ok, type Result } from '../errors.ts';
import { type FrameShape, frameShape } from '../frame/frameShape.ts';
import type { Job } from '../job.ts';
import { makePlan, planOfShape } from '../makePlan.ts';
import type { ChangeOfJob, Cure, OtherRoutine } from '../plan/cure.ts';
import { type ForbiddingCode, forbiddingWarnings, standsAgainst } from '../plan/forbids.ts';
import type { Plan } from '../plan/plan.ts';
import { offTheBatten } from '../rip/batten.ts';
import type { WarningCode } from '../warning.ts';
import { candidatesFor } from './candidates.ts';
import { otherRoutine } from './otherRoutine.ts';
import { type Candidate, LEAST_FEED_M_PER_MIN, type Ways } from './ways.ts';

/** So many plans are made for a plan's warnings at the most: each takes about half as long as the plan itself. */
const MOST_TRIED = 12;
/** A plan of very many marks takes longer. */
const MANY_MARKS = 300;
const MOST_TRIED_OF_MANY = 3;

/** The plan of a job, with the cures of what forbids its cut. Refused as `makePlan` refuses. */
export function planWithCures(job: Job): Result<Plan> {
  const made = makePlan(job);
  return made.ok ? ok(withCures(job, made.value)) : made;
}

/** The plan with its cures beside the warnings that forbid. `job` is what it was made of. */
function withCures(job: Job, plan: Plan): Plan {
  const forbidden = forbiddingWarnings(plan);
  if (forbidden.length === 0) return plan;
  const shape = frameShape(offTheBatten(job));
  if (!shape.ok) return plan;
  const trial = openTrial(plan, shape.value);
  const codes = [...new Set(forbidden.map(({ code }) => code))];
  const cures = new Map<WarningCode, readonly Cure[]>(codes.map((code) => [code, curesOf(code, job, plan, trial)]));
  return {
    ...plan,
    warnings: plan.warnings.map((warning) => {
      const found = standsAgainst(warning) ? (cures.get(warning.code) ?? []) : [];
      return found.length === 0 ? warning : { ...warning, cures: found };
    }),
  };
}

function curesOf(code: ForbiddingCode, job: Job, plan: Plan, trial: Trial): readonly Cure[] {
  const changes = candidatesFor(code, job, plan).flatMap((ways) => trial.helping(code, ways));
  const other: readonly OtherRoutine[] = code === 'quick-turn' ? otherRoutine(plan) : [];
  return [...changes, ...other];
}

type Trial = ReturnType<typeof openTrial>;

function openTrial(plan: Plan, shape: FrameShape) {
  const before = new Set(plan.warnings.map(({ code }) => code));
  let left = plan.marks.length > MANY_MARKS ? MOST_TRIED_OF_MANY : MOST_TRIED;

  /** What it brings, or what is left of it: empty where it helps; null where it cannot be planned, or no more are. */
  function against(
    code: ForbiddingCode,
    job: Job,
  ): { readonly codes: readonly WarningCode[]; readonly plan: Plan } | null {
    if (left === 0) return null;
    left -= 1;
    const made = planOfShape(job, shape);
    if (!made.ok) return null;
    const codes = made.value.warnings
      .filter(
        (warning) =>
          warning.code === code || (!before.has(warning.code) && (standsAgainst(warning) || warning.code === 'pace')),
      )
      .map((warning) => warning.code);
    return { codes, plan: made.value };
  }

  function helped(code: ForbiddingCode, way: Candidate, { slower }: Ways): ChangeOfJob | undefined {
    const found = against(code, way.job);
    if (found === null) return undefined;
    if (found.codes.length === 0) return offered(way);
    const feedMPerMin = Math.floor(found.plan.pace.limitMPerMin * 10) / 10;
    if (slower === undefined || feedMPerMin < LEAST_FEED_M_PER_MIN || found.codes.some((each) => each !== 'pace'))
      return undefined;
    const slow = slower(way, feedMPerMin);
    return against(code, slow.job)?.codes.length === 0 ? offered(slow) : undefined;
  }

  return {
    helping(code: ForbiddingCode, ways: Ways): readonly ChangeOfJob[] {
      if (ways.isTogether === true) {
        const all = ways.tried.map((way) => helped(code, way, ways));
        return all.every((each) => each !== undefined) ? all : [];
      }
      for (const way of ways.tried) {
        const found = helped(code, way, ways);
        if (found !== undefined) return [found];
      }
      return [];
    },
  };
}

const offered = ({ kind, text, change }: Candidate): ChangeOfJob => ({ kind, text, change });
