/** `pattern.csv`: points of the moulded edge. */
import type { Result } from '../core/errors.ts';
import type { PatternPoint } from '../core/job.ts';
import type { Units } from './parseLength.ts';
import { ProblemList } from './problemList.ts';
import { readTable, wantRows } from './readTable.ts';

const COLUMNS = { required: ['y', 'z'], optional: [] };
/** Points nearer than this give the edge no direction. */
const NEAREST_MM = 0.01;

/** Points in mm from heel to head, at least two, no two neighbours in one place; bare numbers count in `units`. */
export function parsePattern(file: string, text: string, units: Units = 'mm'): Result<readonly PatternPoint[]> {
  const problems = new ProblemList();
  return problems.result(readPattern(file, text, units, problems));
}

/** The same, for those who keep their own list of problems: the points that could be read. */
export function readPattern(file: string, text: string, units: Units, problems: ProblemList): readonly PatternPoint[] {
  const before = problems.count;
  const rows = readTable(file, text, COLUMNS, problems);
  wantRows(file, rows, 2, before, problems);
  const points: PatternPoint[] = [];
  let last: PatternPoint | undefined;
  for (const row of rows) {
    const [yMm, zMm] = [row.length('y', units), row.length('z', units)];
    if (yMm === undefined || zMm === undefined) continue;
    if (last !== undefined && Math.hypot(yMm - last.yMm, zMm - last.zMm) < NEAREST_MM)
      row.refuse('out-of-order', 'y', 'a point that is not the point of the row before it');
    last = { yMm, zMm };
    points.push(last);
  }
  return points;
}
