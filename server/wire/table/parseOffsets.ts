/** `offsets.csv`: the shape of the hull, in the long form (a point a row) or as the traditional wide table. */
import type { Result } from '../../core/errors.ts';
import type { Cell, OffsetPoint, OffsetTable } from '../../core/hull/offsets.ts';
import type { Units } from '../length/parseLength.ts';
import { ProblemList } from '../problem/problemList.ts';
import { showName } from '../problem/showFound.ts';
import { checkStations } from './checkStations.ts';
import type { DraftStation } from './draftStation.ts';
import { MixedUnits } from './mixedUnits.ts';
import { wantKeelFirst } from './pointOrder.ts';
import { readTable, type TableRow } from './readTable.ts';
import { readWideOffsets } from './wideOffsets.ts';
import { isWideTable } from './wideRows.ts';

const HEADING = 'a first row that names the columns: station,x,y,z';
const COLUMNS = { required: ['station', 'x', 'y', 'z'], optional: ['knuckle', 'note'] };

/** Stations from forward aft, in mm; bare numbers count in `units`. */
export function parseOffsets(file: string, text: string, units: Units = 'mm'): Result<OffsetTable> {
  const problems = new ProblemList();
  return problems.result(readOffsets(file, text, units, problems));
}

/** The same, for those who keep their own list of problems: the stations that could be read. */
export function readOffsets(file: string, text: string, units: Units, problems: ProblemList): OffsetTable {
  const before = problems.count;
  const drafts =
    isWideTable(text) && !isWithoutHeading(text)
      ? readWideOffsets(file, text, units, problems)
      : readLongOffsets(file, text, units, problems);
  // What could not be read leaves gaps that would be told as faults of the shape.
  const stations = problems.count === before ? checkStations(file, drafts, problems) : [];
  return { file, stations };
}

function readLongOffsets(file: string, text: string, units: Units, problems: ProblemList): readonly DraftStation[] {
  if (isWithoutHeading(text)) {
    problems.add('missing', { file: showName(file) }, 'points without a heading row above them', HEADING);
    return [];
  }
  const mixed = new MixedUnits(file, units, problems);
  const stations: { label: string; xMm: number; xCell: DraftStation['xCell']; points: OffsetPoint[] }[] = [];
  for (const row of readTable(file, text, COLUMNS, problems)) {
    const label = row.text('station');
    const [xMm, yMm, zMm] = (['x', 'y', 'z'] as const).map((column) => row.length(column, units));
    for (const column of ['y', 'z']) mixed.note({ row: row.row, column }, row.text(column));
    const isKnuckle = readKnuckle(row);
    if (label === '') row.refuse('missing', 'station', 'the name of the station');
    // A point of no station would part those before it from those after it.
    if (label === '' || xMm === undefined || yMm === undefined || zMm === undefined) continue;
    const last = stations.at(-1);
    const point = { yMm, zMm, isKnuckle, yCell: cell(row, 'y'), zCell: cell(row, 'z') };
    if (last?.label === label) {
      if (Math.abs(xMm - last.xMm) > SAME_PLANE_MM)
        row.refuse('out-of-order', 'x', `${last.xCell.text}, for all points of station ${label} lie in one plane`);
      last.points.push(point);
    } else if (stations.some((station) => station.label === label))
      row.refuse('out-of-order', 'station', `all points of station ${label} one after the other, from the keel up`);
    else stations.push({ label, xMm, xCell: cell(row, 'x'), points: [point] });
  }
  mixed.tell();
  wantKeelFirst(file, stations, problems);
  return stations;
}

/** Whether the first two rows are points of one station: the first of them is then no heading, though a wide table's could look like it. */
function isWithoutHeading(text: string): boolean {
  const rows = text.replace(/^\uFEFF/, '').split(/\r\n|\n|\r/);
  const filled = rows.filter((line) => line.trim() !== '' && !line.trimStart().startsWith('#')).slice(0, 2);
  const [first = [], second = []] = filled.map((line) => line.split(',').map((cell) => cell.trim()));
  const isPoint = (cells: readonly string[]): boolean =>
    cells.length >= 4 && cells.length <= 6 && cells.slice(1, 4).every((cell) => /^"?[-+]?[\d.]/.test(cell));
  return isPoint(first) && isPoint(second) && first[0] === second[0] && first[1] === second[1];
}

const SAME_PLANE_MM = 0.01;

const cell = (row: TableRow, column: string): Cell => ({ row: row.row, column, text: row.text(column) });

function readKnuckle(row: TableRow): boolean {
  const given = row.text('knuckle').toLowerCase();
  if (given === '' || given === 'no' || given === '0') return false;
  if (!['yes', 'y', '1', 'x', 'k', 'knuckle', 'chine'].includes(given))
    row.refuse('wrong-type', 'knuckle', '"yes" where the section turns sharply, or an empty cell');
  return true;
}
