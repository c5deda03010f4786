/** `pattern.csv`: points of the moulded edge. */
import type { Result } from '../../core/errors.ts';
import type { PatternPoint } from '../../core/job.ts';
import type { Units } from '../length/parseLength.ts';
import { ProblemList } from '../problem/problemList.ts';
import { quote } from '../problem/showFound.ts';
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
  const [heel, head] = [points[0], points.at(-1)];
  if (
    problems.count === before &&
    rows[0] !== undefined &&
    heel !== undefined &&
    head !== undefined &&
    runsDown(heel, head)
  )
    rows[0].refuse(
      'out-of-order',
      'z',
      `the heel's height, and the points from heel to head: the last one, z ${quote(rows.at(-1)?.text('z') ?? '')}, lies lower or farther in, so list them the other way round`,
    );
  return points;
}

/** Less than this share of its breadth a floor timber's edge rises or falls by the errors of its points. */
const LEVEL = 0.05;

/**
 * Whether an edge runs from head to heel: every length along it would be counted from the wrong end, and it would turn to the other side.
 * The head is the higher end; of an edge whose ends are level it is the one farther out.
 */
function runsDown(heel: PatternPoint, head: PatternPoint): boolean {
  const [out, up] = [head.yMm - heel.yMm, head.zMm - heel.zMm];
  return Math.abs(up) > LEVEL * Math.abs(out) ? up < 0 : out < 0;
}
