import { mkdir, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { signedDegFigure } from '../core/figures/degrees.ts';
import { lengthsFor } from '../core/figures/lengths.ts';
import { correctionSentences, trialSentences } from '../core/sawn/trialText.ts';
import { columns } from '../text/columns.ts';
import { TRIAL_TABLE, type TrialMade } from '../wire/job/trialJob.ts';
import { parseMeasuredRequest, parseTrialRequest } from '../wire/request/sawnRequests.ts';
import { correctByTrial, makeTrial } from '../workers/sawnWorker.ts';
import type { Options } from './door/options.ts';
import { readJob, wrong } from './door/readJob.ts';
import type { Terminal } from './door/terminal.ts';
import { UserMistake } from './door/userMistake.ts';
import { given, readMeasured } from './saveCommand.ts';

/** `trial JOB [--whole] [--out FILE.json] [--json]`, or with `--measured FILE.csv [--feed M_PER_MIN] [--error DEG]` what it told. */
export async function trial(path: string, options: Options, { out }: Terminal): Promise<void> {
  const { job, files, parsed } = await readJob(path);
  const lengths = lengthsFor(parsed.notation);
  const carried = { job, files, whole: options.whole === true };
  if (options.measured !== undefined) {
    const asked = parseMeasuredRequest({
      ...carried,
      measured: await readMeasured('trial', options.measured),
      ...given('errorDeg', options.error, Number),
      ...given('feedMPerMin', options.feed, Number),
    });
    if (!asked.ok) throw new UserMistake([`trial: ${asked.error.message}`]);
    const told = correctByTrial(asked.value);
    if (!told.ok) throw wrong(told.problems);
    const { correction, feedMmPerS } = told.value;
    out.write(options.json === true ? json(told.value) : lines(correctionSentences(correction, lengths, feedMmPerS)));
    return;
  }
  const asked = parseTrialRequest(carried);
  if (!asked.ok) throw new UserMistake([`trial: ${asked.error.message}`]);
  const made = makeTrial(asked.value);
  if (!made.ok) throw wrong(made.problems);
  const written = typeof options.out === 'string' ? await write(options.out, made.value) : [];
  if (options.json === true) {
    out.write(json(made.value));
    return;
  }
  const { trial: sheet } = made.value;
  out.write(
    lines([
      ...trialSentences(sheet, lengths),
      '',
      ...columns([
        ['mark', 'of mark', 'along', 'bevel'],
        ...sheet.measureAt.map(({ mark, alongMm, bevelDeg }) => [
          mark === null ? '' : `${mark}`,
          `${sheet.marks.find((each) => each.mark === mark)?.ofMark ?? ''}`,
          lengths.along(alongMm),
          signedDegFigure(bevelDeg, 1),
        ]),
      ]),
      '',
      ...(written.length === 0 ? ['Nothing is written yet: --out trial.json writes the job of the trial.'] : written),
    ]),
  );
}

/** The job under the name that was given, and the table that it names beside it. */
async function write(path: string, { job, files }: TrialMade): Promise<readonly string[]> {
  if (!path.endsWith('.json'))
    throw new UserMistake([`trial: --out ${path}: wanted the name of a job file, such as trial.json`]);
  try {
    await mkdir(dirname(path), { recursive: true });
    await writeFile(path, json(job));
    await writeFile(join(dirname(path), TRIAL_TABLE), files[TRIAL_TABLE] ?? '');
  } catch (error) {
    throw new UserMistake([
      `${path}: found ${(error as NodeJS.ErrnoException).code}; wanted a place that can be written to`,
    ]);
  }
  return [`Written: ${path}, and ${TRIAL_TABLE} beside it.`];
}

const json = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;
const lines = (texts: readonly string[]): string => `${texts.join('\n')}\n`;
