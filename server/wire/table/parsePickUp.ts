/** `pickup.csv`: the bevels measured on the boat. */
import type { Result } from '../../core/errors.ts';
import type { PickUpRow } from '../../core/job.ts';
import type { Units } from '../length/parseLength.ts';
import type { Readings } from '../length/readBevel.ts';
import { ProblemList } from '../problem/problemList.ts';
import { readTable, type TableRow, wantRows } from './readTable.ts';

const COLUMNS = { required: ['girth', 'bevel'], optional: ['weight', 'note'] };
const NOTE_CHARS = 500;
/** Bevels nearer to each other than this are readings of one place. */
const SAME_PLACE_MM = 0.01;

/** Girths in mm and bevels in degrees, heel first; bare numbers in the girth column count in `units`. */
export function parsePickUp(file: string, text: string, units: Units = 'mm'): Result<readonly PickUpRow[]> {
  const problems = new ProblemList();
  return problems.result(readPickUp(file, text, units, problems));
}

/** The same, for those who keep their own list of problems: the rows that could be read. */
export function readPickUp(
  file: string,
  text: string,
  units: Units,
  problems: ProblemList,
  readings: Readings = 'off square',
): readonly PickUpRow[] {
  const before = problems.count;
  const rows = readTable(file, text, COLUMNS, problems);
  wantRows(file, rows, 2, before, problems);
  const read: PickUpRow[] = [];
  let last: { readonly girthMm: number; readonly row: TableRow } | undefined;
  for (const row of rows) {
    const girthMm = readGirth(row, units, last);
    if (girthMm !== undefined) last = { girthMm, row };
    const bevelDeg = row.bevel('bevel', units, readings);
    const weight = row.text('weight') === '' ? 1 : readWeight(row);
    const note = row.text('note');
    if (note.length > NOTE_CHARS) row.refuse('too-large', 'note', `a note of at most ${NOTE_CHARS} characters`);
    if (girthMm === undefined || bevelDeg === undefined || weight === undefined) continue;
    read.push(note === '' ? { girthMm, bevelDeg, weight } : { girthMm, bevelDeg, weight, note });
  }
  return read;
}

function readGirth(
  row: TableRow,
  units: Units,
  last: { readonly girthMm: number; readonly row: TableRow } | undefined,
): number | undefined {
  const girthMm = row.length('girth', units);
  if (girthMm === undefined) return undefined;
  if (girthMm < 0) row.refuse('out-of-range', 'girth', 'a distance from the heel, 0 or more');
  else if (last !== undefined && Math.abs(girthMm - last.girthMm) < SAME_PLACE_MM) return last.girthMm;
  else if (last !== undefined && girthMm < last.girthMm)
    row.refuse(
      'out-of-order',
      'girth',
      `${last.row.text('girth')} or more, the girth of row ${last.row.row} (the same girth again is a second reading of that place)`,
    );
  else return girthMm;
  return undefined;
}

function readWeight(row: TableRow): number | undefined {
  const wanted = 'a weight from 0.000001 to 1000000 (1 is usual), or an empty cell';
  const weight = row.number('weight', wanted);
  if (weight === undefined || (weight >= 1e-6 && weight <= 1e6)) return weight;
  row.refuse('out-of-range', 'weight', wanted);
  return undefined;
}
