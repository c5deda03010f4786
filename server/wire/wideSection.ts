/**
 * A station's points out of a wide table, in order from the keel up. Out and up together grow along every section, whether its floor is
 * flat or its side plumb, so half-breadth plus height gives the order. Where a waterline and a buttock cross the section at nearly one
 * place, the one that crosses it more squarely stays: two close figures, each rounded, would make a false turn.
 */
import type { OffsetPoint } from '../core/hull/offsets.ts';
import type { HullLine } from './hullLine.ts';

type LinePoint = OffsetPoint & { readonly line: HullLine };

/**
 * Two points whose figures are rounded to a step, and that are nearer to each other than so many of them, tell of one place (measured: where
 * two stay that are nearer, bevels of tables in eighths are three times as wrong).
 */
const ONE_PLACE_STEPS = 15;
/** Nearer than this they do so in any table. */
const ONE_PLACE_MM = 0.1;

/** `roundingMm`: the step that the table's figures are rounded to. */
export function sectionOf(points: readonly LinePoint[], roundingMm: number): readonly OffsetPoint[] {
  const sorted = points.toSorted((a, b) => a.yMm + a.zMm - b.yMm - b.zMm);
  const nearestMm = Math.max(ONE_PLACE_MM, ONE_PLACE_STEPS * roundingMm);
  const kept: LinePoint[] = [];
  sorted.forEach((point, i) => {
    const before = kept.at(-1);
    if (before === undefined || chordMm(before, point) > nearestMm) {
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
