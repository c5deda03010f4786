/** The server's answers over HTTP: errors as values, each problem with its place. */
import type { Problem } from '../../../server/core/errors.ts';
import type { Plan } from '../../../server/core/plan/plan.ts';
import type { Routine, RunMode } from '../../../server/core/routine/routine.ts';
import type { Debrief } from '../../../server/core/run/view/debrief.ts';
import type { SavedPiece } from '../../../server/core/sawn/savePiece.ts';
import type { TrialMade, TrialTold } from '../../../server/wire/job/trialJob.ts';
import type { CrewMember, HandOfRun, KeepRequest } from '../../../server/wire/kept/crew.ts';
import type { FeedChoice, JournalLine } from '../../../server/wire/kept/journalLine.ts';
import type { ListedRun, RunView } from '../../../server/wire/message/messages.ts';
import type { WireError } from '../../../server/wire/problem/wireError.ts';
import type { PaperName } from '../../../server/wire/request/papers.ts';

export interface JobSent {
  readonly job: unknown;
  readonly files: Readonly<Record<string, string>>;
  /** Who turns the tilt, if one of the crew of whom something is kept. */
  readonly tiltHand?: string;
}

export interface MarkCodeImage {
  readonly mark: number;
  readonly text: string;
  readonly url: string;
}
export interface MadeDevice {
  readonly label: string;
  readonly url: string;
  /** The address as a QR code, an SVG's text. */
  readonly qr: string;
}

export interface Refusal {
  readonly ok: false;
  /** 0 where there was no answer at all. */
  readonly status: number;
  readonly error: WireError;
  readonly problems: readonly Problem[];
}
export type ApiAnswer<T> = { readonly ok: true; readonly value: T } | Refusal;

export const api = {
  jobs: () => get<readonly { readonly name: string; readonly title: string }[]>('/api/jobs'),
  job: (name: string) => get<JobSent>(`/api/jobs/${encodeURIComponent(name)}`),
  plan: (job: JobSent) => post<Plan>('/api/plan', job),
  runs: () => get<readonly ListedRun[]>('/api/runs'),
  run: (run: string) => get<RunView>(`/api/runs/${encodeURIComponent(run)}`),
  makeRun: (ask: JobSent & { readonly mode: RunMode; readonly routine: Routine; readonly feed: FeedChoice }) =>
    post<{ readonly run: string; readonly plan: Plan }>('/api/runs', ask),
  /** A paper of a job that is planned for it, as a PDF. */
  paper: (paper: PaperName, job: JobSent & { readonly paper: string }) =>
    ask(
      `/api/paper/${paper}`,
      { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(job) },
      (answer) => answer.blob(),
    ),
  /** Whether a sawn piece can be saved. */
  save: (
    { job, files }: JobSent,
    ask: { readonly measured: string; readonly half: 'outer' | 'inner'; readonly errorDeg: number },
  ) => post<SavedPiece>('/api/save', { job, files, ...ask }),
  /** The job's trial on cheap stock, and what it told. */
  trial: ({ job, files }: JobSent, whole: boolean) => post<TrialMade>('/api/trial', { job, files, whole }),
  trialMeasured: (
    { job, files }: JobSent,
    ask: { readonly whole: boolean; readonly measured: string; readonly errorDeg: number },
  ) => post<TrialTold>('/api/trial/measured', { job, files, ...ask }),
  /** What the readout shows with the blade square; and the run made anew for that. */
  square: (run: string, shownDeg: number) => post<RunView>(`/api/runs/${encodeURIComponent(run)}/square`, { shownDeg }),
  squareAnew: (run: string, shownDeg: number) =>
    post<{ readonly run: string }>(`/api/runs/${encodeURIComponent(run)}/square-anew`, { shownDeg }),
  /** Which mark is at the blade, where the record does not tell; 0 before the first. */
  atBlade: (run: string, mark: number) => post<RunView>(`/api/runs/${encodeURIComponent(run)}/at-blade`, { mark }),
  codes: (run: string) => get<readonly MarkCodeImage[]>(`/api/runs/${encodeURIComponent(run)}/codes`),
  planOf: (run: string) => get<Plan>(`/api/runs/${encodeURIComponent(run)}/plan`),
  access: () => get<{ readonly lan: boolean; readonly role: string }>('/api/access'),
  addDevice: (ask: { readonly role: 'wheel' | 'sawyer'; readonly label: string; readonly run: string }) =>
    post<MadeDevice>('/api/devices', ask),
  /** What a run tells of its tilt hand; only for the console. */
  handOf: (run: string) => get<HandOfRun>(`/api/runs/${encodeURIComponent(run)}/hand`),
  crew: () => get<readonly CrewMember[]>('/api/crew'),
  keepHand: (ask: KeepRequest) => post<CrewMember>('/api/crew', ask),
  forgetHand: (name: string) =>
    ask(`/api/crew/${encodeURIComponent(name)}`, { method: 'DELETE' }, () => Promise.resolve(null)),
  debrief: (run: string) => get<Debrief>(`/api/runs/${encodeURIComponent(run)}/debrief`),
  journal: (run: string) =>
    ask(journalAddress(run), {}, async (answer) =>
      (await answer.text())
        .split('\n')
        .filter((line) => line !== '')
        .map((line) => JSON.parse(line) as JournalLine),
    ),
};

/** A paper of a run, or its record, as a PDF. */
export const paperAddress = (run: string, paper: PaperName | 'record', size: string): string =>
  `/api/runs/${encodeURIComponent(run)}/paper/${paper}.pdf?paper=${size}`;

export const journalAddress = (run: string): string => `/api/runs/${encodeURIComponent(run)}/journal`;

const get = <T>(address: string): Promise<ApiAnswer<T>> => ask(address, {}, (answer) => answer.json() as Promise<T>);
const post = <T>(address: string, body: unknown): Promise<ApiAnswer<T>> =>
  ask(
    address,
    { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) },
    (answer) => answer.json() as Promise<T>,
  );

async function ask<T>(
  address: string,
  init: RequestInit,
  read: (answer: Response) => Promise<T>,
): Promise<ApiAnswer<T>> {
  try {
    const answer = await fetch(address, init);
    if (answer.ok) return { ok: true, value: await read(answer) };
    const body = (await answer.json()) as { error: WireError; problems?: readonly Problem[] };
    return { ok: false, status: answer.status, error: body.error, problems: body.problems ?? [] };
  } catch {
    return {
      ok: false,
      status: 0,
      error: {
        code: 'no-answer',
        message: 'The server does not answer. Check that By the Mark is still running, then try again.',
      },
      problems: [],
    };
  }
}
