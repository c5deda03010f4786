/** A list of lengths written on one line, parted by commas. */
import type { Result } from '../../core/errors.ts';
import { ProblemList } from '../problem/problemList.ts';
import { quote } from '../problem/showFound.ts';
import { type BareUnits, readLengthCell } from './parseLength.ts';

const MOST = 500;

/** In mm, as they are written; `name` is how the list is called. */
export function parseLengthList(text: string, units: BareUnits, name: string): Result<readonly number[]> {
  const problems = new ProblemList();
  const items = text.split(',').map((item) => item.trim());
  if (items.length > MOST)
    problems.add('too-many', { field: name }, `${items.length} lengths`, `at most ${MOST} lengths`);
  const read = items.slice(0, MOST).map((item, i) => {
    const reading = readLengthCell(item, units);
    if (reading.mm === undefined) problems.add(reading.code, { field: `${name}[${i}]` }, quote(item), reading.wanted);
    return reading.mm ?? Number.NaN;
  });
  return problems.result(read);
}
