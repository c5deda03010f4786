/**
 * A station's points out of a wide table, in order from the keel up. Out and up together grow along every section, whether its floor is
 * flat or its side plumb, so half-breadth plus height gives the order. Where a waterline and a buttock cross the section at nearly one
 * place, the one that crosses it more squarely stays: two close figures, each rounded, would make a false turn.
 */
import type { OffsetPoint } from '../core/hull/offsets.ts';
import type { HullLine } from './hullLine.ts';

type LinePoint = OffsetPoint & { readonly line: HullLine };

/** Nearer than this share of the girth two lines tell of one place. */
const ONE_PLACE = 0.012;

export function sectionOf(points: readonly LinePoint[]): readonly OffsetPoint[] {
  const sorted = points.toSorted((a, b) => a.yMm + a.zMm - b.yMm - b.zMm);
  const girthMm = sorted.slice(1).reduce((sum, point, i) => sum + chordMm(sorted[i] ?? point, point), 0);
  const kept: LinePoint[] = [];
  sorted.forEach((point, i) => {
    const before = kept.at(-1);
    if (before === undefined || chordMm(before, point) > ONE_PLACE * girthMm) {
      kept.push(point);
      return;
    }
    const isSteep = steepness(sorted, i) > 1;
    if (worth(point, isSteep) > worth(before, isSteep)) kept[kept.length - 1] = point;
  });
  return kept.map(({ yMm, zMm, isKnuckle, yCell, zCell }) => ({ yMm, zMm, isKnuckle, yCell, zCell }));
}

const chordMm = (a: OffsetPoint, b: OffsetPoint): number => Math.hypot(b.yMm - a.yMm, b.zMm - a.zMm);

/** The ends and knuckles always stay; of the others a waterline where the section is steep, a buttock where it is flat. */
function worth({ line }: LinePoint, isSteep: boolean): number {
  if (line.kind === 'waterline') return isSteep ? 1 : 0;
  if (line.kind === 'buttock') return isSteep ? 0 : 1;
  return 2;
}

function steepness(points: readonly OffsetPoint[], i: number): number {
  const [before, after] = [points[Math.max(0, i - 2)], points[Math.min(points.length - 1, i + 2)]];
  if (before === undefined || after === undefined) return 1;
  return Math.abs(after.zMm - before.zMm) / Math.max(1e-9, Math.abs(after.yMm - before.yMm));
}
