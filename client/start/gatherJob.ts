/** What becomes of the job on the bench when files are dropped: a new one from the drop, or the same one with other tables. */
import type { JobSent } from '../kit/link/api.ts';

export interface DroppedFile {
  readonly name: string;
  readonly text: string;
}
type Gathered =
  | { readonly ok: true; readonly job: JobSent; readonly from: string }
  | { readonly ok: false; readonly message: string };

/** `bench`: what lies there now, and the tables dropped before, so that a job and its tables may come one after the other. */
export function gatherJob(
  dropped: readonly DroppedFile[],
  bench: { readonly job: JobSent | null; readonly tables: Readonly<Record<string, string>> },
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
    const named = tablesNamedBy(bench.job.job);
    // Taken without a word it would seem to be planned with, while the old table still stood.
    if (named.length > 0 && !dropped.some(({ name }) => named.includes(name)))
      return {
        ok: false,
        message: `This job does not use ${names}. It uses ${named.join(', ')}. Give the table that name, or drop the job file (.json) with it.`,
      };
    return { ok: true, job: { job: bench.job.job, files: { ...bench.job.files, ...tables } }, from: names };
  }
  try {
    return { ok: true, job: { job: JSON.parse(first.text), files: { ...bench.tables, ...tables } }, from: names };
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return { ok: false, message: `${first.name} is not JSON: ${why}.` };
  }
}

/** The file names in the `shape` of a job; of one that has none, none. */
function tablesNamedBy(job: unknown): readonly string[] {
  const shape: unknown = Object(job).shape;
  const { pickup, pattern, offsets } = Object(shape);
  return [pickup, pattern, offsets].filter((name): name is string => typeof name === 'string');
}

const isJob = ({ name, text }: DroppedFile): boolean =>
  name.toLowerCase().endsWith('.json') || (!/\.(csv|txt|tsv)$/i.test(name) && text.trimStart().startsWith('{'));

export const tablesIn = (dropped: readonly DroppedFile[]): Readonly<Record<string, string>> =>
  Object.fromEntries(dropped.filter((file) => !isJob(file)).map((file) => [file.name, file.text]));
