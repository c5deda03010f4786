/** What becomes of the job on the bench when files are dropped: a new one from the drop, or the same one with other tables. */
import type { JobFiles } from '../kit/api.ts';

export interface DroppedFile {
  readonly name: string;
  readonly text: string;
}
export type Gathered =
  | { readonly ok: true; readonly job: JobFiles; readonly from: string }
  | { readonly ok: false; readonly message: string };

/** `bench`: what lies there now, and the tables dropped before, so that a job and its tables may come one after the other. */
export function gatherJob(
  dropped: readonly DroppedFile[],
  bench: { readonly job: JobFiles | null; readonly tables: Readonly<Record<string, string>> },
): Gathered {
  const jobs = dropped.filter(isJob);
  const tables = Object.fromEntries(dropped.filter((file) => !isJob(file)).map((file) => [file.name, file.text]));
  const names = dropped.map((file) => file.name).join(', ');
  const [first, second] = jobs;
  if (second !== undefined)
    return {
      ok: false,
      message: `Found ${jobs.length} job files (${jobs.map((job) => job.name).join(', ')}); drop one.`,
    };
  if (first === undefined) {
    if (bench.job === null)
      return { ok: false, message: `Found tables only (${names}); drop the job file (.json) too.` };
    return { ok: true, job: { job: bench.job.job, files: { ...bench.job.files, ...tables } }, from: names };
  }
  try {
    return { ok: true, job: { job: JSON.parse(first.text), files: { ...bench.tables, ...tables } }, from: names };
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return { ok: false, message: `${first.name} is not JSON: ${why}.` };
  }
}

const isJob = ({ name, text }: DroppedFile): boolean =>
  name.toLowerCase().endsWith('.json') || (!/\.(csv|txt|tsv)$/i.test(name) && text.trimStart().startsWith('{'));

export const tablesIn = (dropped: readonly DroppedFile[]): Readonly<Record<string, string>> =>
  Object.fromEntries(dropped.filter((file) => !isJob(file)).map((file) => [file.name, file.text]));
