import { planWithCures } from '../core/cures/tryCures.ts';
import { makePaper } from '../paper/makePaper.ts';
import { type PaperName, paperAsked } from '../wire/message/papers.ts';
import type { Options } from './options.ts';
import { readJob, wrong } from './readJob.ts';
import type { Terminal } from './terminal.ts';
import { UserMistake } from './userMistake.ts';
import { outFile, writePaper } from './writePaper.ts';

/** `strip JOB --out FILE.pdf [--paper a4|letter|roll62|tape24]` and the other papers of a job. */
export async function paper(name: PaperName, path: string, options: Options, { err }: Terminal): Promise<void> {
  const out = outFile(name, options);
  const asked = paperAsked(name, typeof options.paper === 'string' ? options.paper : undefined);
  if ('wanted' in asked) throw new UserMistake([`--paper: found ${asked.found}; wanted ${asked.wanted}`]);
  const { parsed } = await readJob(path);
  const made = planWithCures(parsed);
  if (!made.ok) throw wrong(made.problems);
  await writePaper(out, await makePaper({ ...asked, plan: made.value }));
  if (!made.value.leadsIsSure)
    err.write('which end leads rests on fields that were filled in: confirm it before sawing\n');
}
