import { signedDegFigure } from '../core/figures/degrees.ts';
import { lengthsFor } from '../core/figures/lengths.ts';
import type { SavedPiece } from '../core/sawn/savePiece.ts';
import { isPlaned, saveSentences, verdictSentence } from '../core/sawn/saveText.ts';
import { columns } from '../text/columns.ts';
import { parseSaveRequest } from '../wire/request/sawnRequests.ts';
import { savePieceOf } from '../workers/sawnWorker.ts';
import type { Options } from './door/options.ts';
import { readJob, wrong } from './door/readJob.ts';
import { readNamedFile } from './door/readNamedFile.ts';
import type { Terminal } from './door/terminal.ts';
import { UserMistake } from './door/userMistake.ts';

/** `save JOB --measured FILE.csv [--half outer|inner] [--error DEG] [--from L] [--to L] [--thinnest L] [--json]` */
export async function save(path: string, options: Options, { out }: Terminal): Promise<void> {
  const { job, files } = await readJob(path);
  const asked = parseSaveRequest({
    job,
    files,
    measured: await readMeasured('save', options.measured),
    ...given('half', options.half),
    ...given('errorDeg', options.error, Number),
    ...given('from', options.from),
    ...given('to', options.to),
    ...given('thinnestEdge', options.thinnest),
  });
  if (!asked.ok) throw new UserMistake([`save: ${asked.error.message}`]);
  const saved = savePieceOf(asked.value);
  if (!saved.ok) throw wrong(saved.problems);
  out.write(options.json === true ? `${JSON.stringify(saved.value, null, 2)}\n` : asText(saved.value));
}

export const given = (name: string, value: Options[string], read: (text: string) => unknown = (text) => text) =>
  value === undefined ? {} : { [name]: read(String(value)) };

/** The table that `--measured` names. */
export async function readMeasured(command: string, path: Options[string]): Promise<string> {
  if (typeof path !== 'string' || path === '')
    throw new UserMistake([`${command}: no --measured FILE.csv given: a table along,bevel of what was sawn`]);
  const found = await readNamedFile({ path, shown: path, wanted: MEASURED });
  if (!found.ok) throw wrong([found.problem]);
  if (found.text !== undefined) return found.text;
  throw wrong([{ code: 'missing-file', at: { file: path }, found: 'no such file', wanted: MEASURED }]);
}

const MEASURED = 'a table along,bevel';

function asText(saved: SavedPiece): string {
  const lengths = lengthsFor(saved.notation);
  const table =
    saved.verdict === 'scrap'
      ? []
      : columns([
          ['mark', 'along', 'has', 'wants', 'plane', 'at the', 'leaves', ''],
          ...saved.places.map((place) => [
            `${place.mark}`,
            lengths.along(place.alongMm),
            signedDegFigure(place.haveDeg, 1),
            signedDegFigure(place.wantDeg, 1),
            isPlaned(place) ? lengths.fine(place.planeMm) : '-',
            isPlaned(place) ? `${place.edge} edge` : '',
            lengths.fine(place.leavesMm),
            place.isMeasured ? '' : 'not measured here',
          ]),
        ]);
  return `${[saved.title, '', verdictSentence(saved, lengths), ...saveSentences(saved, lengths), ...(table.length === 0 ? [] : ['', ...table])].join('\n')}\n`;
}
