/** `piece.csv`: bevels measured on a sawn piece: `along,bevel`, optional `weight` and `thin` (thickness of the thinner edge). */
import type { Result } from '../../core/errors.ts';
import type { PieceRow } from '../../core/sawn/bestShift.ts';
import type { BareUnits } from '../length/parseLength.ts';
import { ProblemList } from '../problem/problemList.ts';
import { readTable, type TableRow, wantRows } from './readTable.ts';

const COLUMNS = { required: ['along', 'bevel'], optional: ['weight', 'thin'] };
const NEAREST_MM = 0.01;
/** A piece lies along the stock, and a zero of its own may lie anywhere on it. */
const FARTHEST_MM = 100_000;
const THICKEST_MM = 2000;
const WEIGHT = 'a weight from 0.000001 to 1000000 (1 is usual), or an empty cell';

/** Places in mm and bevels in degrees, heelward first; bare numbers in the length columns count in `units`. At least two rows. */
export function parsePiece(file: string, text: string, units: BareUnits): Result<readonly PieceRow[]> {
  const problems = new ProblemList();
  const table = readTable(file, text, COLUMNS, problems);
  wantRows(file, table, 2, 0, problems);
  const rows: PieceRow[] = [];
  let last: { readonly alongMm: number; readonly row: TableRow } | undefined;
  for (const row of table) {
    const alongMm = within(row, 'along', row.length('along', units), FARTHEST_MM);
    if (alongMm !== undefined && last !== undefined && alongMm < last.alongMm + NEAREST_MM)
      row.refuse('out-of-order', 'along', `more than ${last.row.text('along')}, the place of row ${last.row.row}`);
    if (alongMm !== undefined) last = { alongMm, row };
    const bevelDeg = row.bevel('bevel', units);
    const weight = row.text('weight') === '' ? 1 : row.number('weight', WEIGHT);
    if (weight !== undefined && !(weight >= 1e-6 && weight <= 1e6)) row.refuse('out-of-range', 'weight', WEIGHT);
    const thinMm = row.text('thin') === '' ? undefined : within(row, 'thin', row.length('thin', units), THICKEST_MM);
    if (thinMm !== undefined && thinMm < 0) row.refuse('out-of-range', 'thin', 'a thickness, 0 or more');
    if (alongMm === undefined || bevelDeg === undefined || weight === undefined) continue;
    rows.push({ alongMm, bevelDeg, weight, ...(thinMm === undefined ? {} : { thinMm }) });
  }
  return problems.result(rows);
}

function within(row: TableRow, column: string, mm: number | undefined, mostMm: number): number | undefined {
  if (mm === undefined || Math.abs(mm) <= mostMm) return mm;
  row.refuse('out-of-range', column, `a length of at most ${mostMm / 1000} m either way`);
  return undefined;
}
