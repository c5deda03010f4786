/** A job file and the tables that it names, read from the disk. */
import { basename, dirname, extname, resolve } from 'node:path';
import { describeProblem, type Problem } from '../../core/errors.ts';
import type { Job } from '../../core/job.ts';
import { filesNamedBy, parseJobText } from '../../wire/job/jobFile.ts';
import { parseJob } from '../../wire/job/parseJob.ts';
import { showName } from '../../wire/problem/showFound.ts';
import { type FileAsked, readNamedFile } from './readNamedFile.ts';
import { UserMistake } from './userMistake.ts';

interface JobOnDisk {
  readonly name: string;
  readonly title: string;
  readonly job: unknown;
  readonly files: Readonly<Record<string, string>>;
  readonly parsed: Job;
}

/** Reads and parses; everything that is wrong with it is a UserMistake with one line a problem. */
export async function readJob(path: string): Promise<JobOnDisk> {
  const wanted = 'a job file (JSON)';
  const text = await read({ path, shown: path, wanted });
  if (text === undefined) throw wrong([{ code: 'missing-file', at: { file: path }, found: 'no such file', wanted }]);
  const json = parseJobText(path, text);
  if (!json.ok) throw wrong(json.problems);
  const job = json.value;
  const folder = dirname(path);
  const files: Record<string, string> = {};
  for (const name of filesNamedBy(job)) {
    // What is not there is told by `parseJob`, which knows the field that names it.
    const table = await read({
      path: resolve(folder, name),
      shown: showName(name),
      wanted: 'a table (CSV)',
      within: folder,
    });
    if (table !== undefined) files[name] = table;
  }
  const parsed = parseJob(job, files);
  if (!parsed.ok) throw wrong(parsed.problems);
  return { name: basename(path, extname(path)), title: parsed.value.title, job, files, parsed: parsed.value };
}

export const wrong = (problems: readonly Problem[]): UserMistake => new UserMistake(problems.map(describeProblem));

/** The text of a file, undefined if there is none; what is wrong with it is a UserMistake. */
async function read(file: FileAsked): Promise<string | undefined> {
  const found = await readNamedFile(file);
  if (!found.ok) throw wrong([found.problem]);
  return found.text;
}
