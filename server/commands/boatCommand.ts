import { wholeBoat } from '../core/frame/wholeBoat.ts';
import { boatAsText } from '../text/boatText.ts';
import { bareUnitsOf } from '../wire/length/parseLength.ts';
import { parseLengthList } from '../wire/length/parseLengthList.ts';
import type { Options } from './door/options.ts';
import { readJob, wrong } from './door/readJob.ts';
import type { Terminal } from './door/terminal.ts';
import { UserMistake } from './door/userMistake.ts';

/** `boat JOB [--at LIST] [--json]` */
export async function boat(path: string, options: Options, { out }: Terminal): Promise<void> {
  const { parsed } = await readJob(path);
  const { shape } = parsed;
  if (shape.kind !== 'offsets')
    throw new UserMistake([`${path}: found bevels picked up on the boat; wanted a table of offsets (shape.offsets)`]);
  const asked = typeof options.at === 'string' ? parseLengthList(options.at, bareUnitsOf(parsed), '--at') : undefined;
  if (asked !== undefined && !asked.ok) throw wrong(asked.problems);
  const [framesMm, field] = asked?.ok
    ? [asked.value, '--at']
    : shape.framesMm.length > 0
      ? [shape.framesMm, 'shape.frames']
      : [shape.table.stations.map(({ xMm }) => xMm), 'stations'];
  const made = wholeBoat(parsed, shape, framesMm, field);
  if (!made.ok) throw wrong(made.problems);
  out.write(options.json === true ? `${JSON.stringify(made.value, null, 2)}\n` : boatAsText(made.value));
}
