import { planWithCures } from '../core/cures/tryCures.ts';
import { makePaper } from '../paper/makePaper.ts';
import { type PaperName, paperAsked } from '../wire/request/papers.ts';
import type { Options } from './door/options.ts';
import { readJob, wrong } from './door/readJob.ts';
import type { Terminal } from './door/terminal.ts';
import { UserMistake } from './door/userMistake.ts';
import { outFile, writePaper } from './door/writePaper.ts';

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
