/**
 * Stations whose points run from the sheer down. Nothing else would tell: the sections have the same shape, but inside and outside
 * change places, so every bevel would have the other sign and planking would be added instead of deducted.
 */
import type { OffsetPoint } from '../../core/hull/offsets.ts';
import type { ProblemList } from '../problem/problemList.ts';
import { quote, showName } from '../problem/showFound.ts';
import type { DraftStation } from './draftStation.ts';

/** Each such station goes to `problems`, with the cell of its first point; all of them together where the whole table runs so. */
export function wantKeelFirst(file: string, drafts: readonly DraftStation[], problems: ProblemList): void {
  const turned = drafts.filter(({ points }) => runsDown(points));
  const isAll = turned.length > 1 && turned.length === drafts.length;
  for (const { label, points } of isAll ? turned.slice(0, 1) : turned) {
    const [first, last] = [points[0], points.at(-1)];
    if (first === undefined || last === undefined) continue;
    const { row, column } = first.zCell;
    const others = isAll ? ', as do those of all other stations' : '';
    const found = `height ${quote(first.zCell.text)} at the first point of station ${label} and ${quote(last.zCell.text)} at its last: its points run from the sheer down${others}`;
    const wanted = `the points from the keel up: list the points of ${isAll ? 'every station' : `station ${label}`} the other way round`;
    problems.add('out-of-order', { file: showName(file), row, column }, found, wanted);
  }
}

/**
 * Out and up together grow from keel to sheer, over a flat floor, a plumb or a tumbled side, and a dip on the way. A
 * section that ends below where it began, though most of its points rise, has a wrong figure at an end, which is told as that.
 */
function runsDown(points: readonly OffsetPoint[]): boolean {
  const up = points.map(({ yMm, zMm }) => Math.abs(yMm) + zMm);
  const steps = up.slice(1).map((mm, i) => mm - (up[i] ?? mm));
  const falling = steps.filter((mm) => mm < 0).length;
  return falling > steps.length / 2 && (up.at(-1) ?? 0) < (up[0] ?? 0);
}
