/** What the planning thread does about pieces that were sawn and trials that are to be. */
import type { Problem } from '../core/errors.ts';
import { ok, type Result, refused } from '../core/errors.ts';
import { placeText } from '../core/figures/lengths.ts';
import type { Job } from '../core/job.ts';
import { makePlan } from '../core/makePlan.ts';
import type { Plan } from '../core/plan/plan.ts';
import { correctionOf } from '../core/sawn/correction.ts';
import { type SavedPiece, savePiece } from '../core/sawn/savePiece.ts';
import { sawnAlong, trialOf } from '../core/sawn/trial.ts';
import { mPerMinToMmPerMs } from '../core/units.ts';
import { parseJob } from '../wire/job/parseJob.ts';
import { type TrialMade, type TrialTold, trialJob } from '../wire/job/trialJob.ts';
import { type BareUnits, bareUnitsOf, readLength } from '../wire/length/parseLength.ts';
import { jobGiven } from '../wire/request/requests.ts';
import type { SaveRequest, TrialMeasuredRequest, TrialRequest } from '../wire/request/sawnRequests.ts';
import { parsePiece } from '../wire/table/parsePiece.ts';

const MEASURED = 'piece.csv';

export function savePieceOf(asked: SaveRequest): Result<SavedPiece> {
  const planned = plannedOf(asked);
  if (!planned.ok) return planned;
  const { plan, job } = planned.value;
  const rows = parsePiece(MEASURED, asked.measured, bareUnitsOf(job));
  if (!rows.ok) return rows;
  const ends = readEnds(asked, bareUnitsOf(job));
  if (!ends.ok) return ends;
  const saved = savePiece(plan, rows.value, { half: asked.half, errorDeg: asked.errorDeg, ...ends.value });
  if (saved === undefined) throw new Error('a plan that was just made tells how its cut lies');
  return ok(saved);
}

export function makeTrial(asked: TrialRequest): Result<TrialMade> {
  const planned = plannedOf(asked);
  if (!planned.ok) return planned;
  const { plan, job } = planned.value;
  const trial = trialOf(plan, asked);
  return ok({ trial, ...trialJob(jobGiven(asked.job) as Readonly<Record<string, unknown>>, job, trial) });
}

/** `job`: the one that the trial was made of, not the trial's own. */
export function correctByTrial(asked: TrialMeasuredRequest): Result<TrialTold> {
  const planned = plannedOf(asked);
  if (!planned.ok) return planned;
  const { plan, job } = planned.value;
  const rows = parsePiece(MEASURED, asked.measured, bareUnitsOf(job));
  if (!rows.ok) return rows;
  const trial = trialOf(plan, asked);
  const startMm = plan.marks.find(({ mark }) => mark === trial.fromMark)?.stockMm ?? 0;
  const sawnDeg = sawnAlong(plan);
  // The run goes the other way where the head leads: behind its place is then nearer to the head.
  const way = plan.leads === 'head' ? -1 : 1;
  const inRun = (alongMm: number): number => (way === 1 ? alongMm : trial.lengthMm - alongMm);
  const correction = correctionOf({
    rows: rows.value.map((row) => ({ ...row, alongMm: inRun(row.alongMm) })),
    wantedDeg: (mm) => sawnDeg(startMm + inRun(mm)),
    fromMm: 0,
    toMm: trial.lengthMm,
    hand: plan.hand,
    readoutTable: plan.saw.readoutTable,
    errorDeg: asked.errorDeg,
  });
  if (correction === undefined)
    return refused([
      {
        code: 'too-few',
        at: { file: MEASURED },
        found: `fewer than 3 of its rows on the trial, from ${placeText(0, plan.notation)} to ${placeText(trial.lengthMm, plan.notation)}`,
        wanted: 'bevels at each mark of the trial, measured along from its first mark’s line',
      },
    ]);
  const feedMmPerS = 1000 * mPerMinToMmPerMs(asked.feedMPerMin ?? job.crew.feedMPerMin);
  return ok({ trial, correction, feedMmPerS });
}

function plannedOf({
  job: given,
  files,
}: TrialRequest | SaveRequest): Result<{ readonly plan: Plan; readonly job: Job }> {
  const job = parseJob(jobGiven(given), files);
  if (!job.ok) return job;
  const plan = makePlan(job.value);
  return plan.ok ? ok({ plan: plan.value, job: job.value }) : plan;
}

type Ends = { readonly fromMm?: number; readonly toMm?: number; readonly thinnestEdgeMm?: number };

function readEnds({ from, to, thinnestEdge }: SaveRequest, units: BareUnits): Result<Ends> {
  const problems: Problem[] = [];
  const read = (field: string, value: number | string | undefined, leastMm: number): number | undefined => {
    if (value === undefined) return undefined;
    const reading = readLength(value, units);
    if (reading.mm !== undefined && reading.mm >= leastMm && Math.abs(reading.mm) <= FARTHEST_MM) return reading.mm;
    const code = reading.mm === undefined ? reading.code : 'out-of-range';
    problems.push({
      code,
      at: { field },
      found: String(value),
      wanted: reading.mm === undefined ? reading.wanted : `a length${leastMm === 0 ? ', 0 or more' : ''}`,
    });
    return undefined;
  };
  const fromMm = read('from', from, -FARTHEST_MM);
  const toMm = read('to', to, -FARTHEST_MM);
  const thinnestEdgeMm = read('thinnestEdge', thinnestEdge, 0);
  if (fromMm !== undefined && toMm !== undefined && toMm <= fromMm)
    problems.push({ code: 'out-of-order', at: { field: 'to' }, found: String(to), wanted: `more than ${from}` });
  if (problems.length > 0) return refused(problems);
  return ok({
    ...(fromMm === undefined ? {} : { fromMm }),
    ...(toMm === undefined ? {} : { toMm }),
    ...(thinnestEdgeMm === undefined ? {} : { thinnestEdgeMm }),
  });
}

const FARTHEST_MM = 100_000;
