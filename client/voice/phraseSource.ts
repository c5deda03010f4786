/** Where the phrases to be recorded come from: a run that was made, a job that the server offers, or the plan on the start page. */
import type { Plan } from '../../server/core/plan/plan.ts';
import { ROUTINES, type Routine, type RunMode, USUAL_ROUTINE } from '../../server/core/routine/routine.ts';
import { makeSetup } from '../../server/core/run/makeSetup.ts';
import { phrasesOfRun } from '../../server/core/words/phrases.ts';
import type { WireError } from '../../server/wire/problem/wireError.ts';
import { api } from '../kit/link/api.ts';

export interface PhraseList {
  readonly title: string;
  readonly texts: readonly string[];
}
type ListFound = { readonly ok: true; readonly list: PhraseList } | { readonly ok: false; readonly error: WireError };

const KEPT = 'by-the-mark.phrases-to-record';

/** Everything that a run of this plan may say. */
export const phrasesOfPlan = (plan: Plan, mode: RunMode, routine: Routine): PhraseList => ({
  title: plan.title,
  texts: phrasesOfRun(makeSetup(plan, mode, {}, routine)).map(({ text }) => text),
});

/** Hands the list over to the page that the next click in this tab opens at `/voice?plan=here`. */
export function handOver(list: PhraseList): void {
  try {
    sessionStorage.setItem(KEPT, JSON.stringify(list));
  } catch {
    // Forbidden: the page then asks which job.
  }
}

/** Null where the address names none. */
export async function phraseList(query: URLSearchParams): Promise<ListFound | null> {
  const run = query.get('run');
  if (run !== null) return ofRun(run);
  const job = query.get('job');
  if (job !== null) return ofJob(job, ROUTINES.find((routine) => routine === query.get('routine')) ?? USUAL_ROUTINE);
  const kept = query.has('plan') ? handedOver() : undefined;
  return kept === undefined ? null : { ok: true, list: kept };
}

async function ofRun(run: string): Promise<ListFound> {
  const view = await api.run(run);
  if (!view.ok) return view;
  // Not its clips: another voice says some bevels in fewer words, which nobody needs to record.
  const plan = await api.planOf(run);
  return plan.ok ? { ok: true, list: phrasesOfPlan(plan.value, view.value.mode, view.value.routine) } : plan;
}

async function ofJob(name: string, routine: Routine): Promise<ListFound> {
  const job = await api.job(name);
  if (!job.ok) return job;
  const plan = await api.plan(job.value);
  return plan.ok ? { ok: true, list: phrasesOfPlan(plan.value, 'pair', routine) } : plan;
}

function handedOver(): PhraseList | undefined {
  try {
    return JSON.parse(sessionStorage.getItem(KEPT) ?? 'null') ?? undefined;
  } catch {
    return undefined;
  }
}
