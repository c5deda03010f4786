/** A job file and the tables that it names, read from the disk. */
import { readFile, stat } from 'node:fs/promises';
import { basename, dirname, extname, resolve } from 'node:path';
import { describeProblem, type Problem } from '../core/errors.ts';
import type { Job } from '../core/job.ts';
import { filesNamedBy, parseJobText } from '../wire/jobFile.ts';
import { parseJob } from '../wire/parseJob.ts';
import { UserMistake } from './userMistake.ts';

/** Far over what is parsed; only so that a film given by mistake is not read into memory. */
const FILE_LIMIT_BYTES = 16_000_000;

export interface JobOnDisk {
  readonly name: string;
  readonly title: string;
  readonly job: unknown;
  readonly files: Readonly<Record<string, string>>;
  readonly parsed: Job;
}

/** Reads and parses; everything that is wrong with it is a UserMistake with one line a problem. */
export async function readJob(path: string): Promise<JobOnDisk> {
  const text = await read(path, path);
  if (text === undefined) throw wrong([problem(path, 'no such file', 'a job file (JSON)')]);
  const json = parseJobText(path, text);
  if (!json.ok) throw wrong(json.problems);
  const job = json.value;
  const files: Record<string, string> = {};
  for (const name of filesNamedBy(job)) {
    // What is not there is told by `parseJob`, which knows the field that names it.
    const table = await read(resolve(dirname(path), name), name);
    if (table !== undefined) files[name] = table;
  }
  const parsed = parseJob(job, files);
  if (!parsed.ok) throw wrong(parsed.problems);
  return { name: basename(path, extname(path)), title: parsed.value.title, job, files, parsed: parsed.value };
}

export const wrong = (problems: readonly Problem[]): UserMistake => new UserMistake(problems.map(describeProblem));

const problem = (file: string, found: string, wanted: string): Problem => ({
  code: 'missing-file',
  at: { file },
  found,
  wanted,
});

/** The text of a file, undefined if there is none; `shown` is how the user calls it. */
async function read(path: string, shown: string): Promise<string | undefined> {
  try {
    const { size } = await stat(path);
    if (size > FILE_LIMIT_BYTES)
      throw wrong([{ ...problem(shown, `${size} bytes`, `at most ${FILE_LIMIT_BYTES} bytes`), code: 'too-large' }]);
    return await readFile(path, 'utf8');
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT' || code === 'ENOTDIR') return undefined;
    if (code === 'EISDIR') throw wrong([problem(shown, 'a folder', 'a file')]);
    if (code === 'EACCES' || code === 'EPERM')
      throw wrong([problem(shown, 'a file that may not be read', 'one that may')]);
    throw error;
  }
}
