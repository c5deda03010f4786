/**
 * A station's points out of a wide table, in order along the section from rabbet or keel to sheer: the shortest way through them all, whatever
 * the section does in between (a flat or hollow floor, a side that leans in). Where a waterline and a buttock cross the section at nearly one
 * place, the one that crosses it more squarely stays: two close figures, each rounded, would make a false turn.
 */
import type { OffsetPoint } from '../../core/hull/offsets.ts';
import { pathThrough } from '../../core/numeric/spline/pathThrough.ts';
import type { HullLine } from './hullLine.ts';

type LinePoint = OffsetPoint & { readonly line: HullLine };

/**
 * Two points whose figures are rounded to a step, and that are nearer to each other than so many of them, tell of one place (measured: where
 * two stay that are nearer, bevels of tables in eighths are three times as wrong).
 */
const ONE_PLACE_STEPS = 15;
/** Nearer than this they do so in any table. */
const ONE_PLACE_MM = 0.1;

/** More lines than this no drawing has: their points are taken in the order of half-breadth plus height. */
const MOST_LINES = 400;

/** `roundingMm`: the step that the table's figures are rounded to. */
export function sectionOf(points: readonly LinePoint[], roundingMm: number): WideSection {
  const sorted = alongSection(points);
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
  return {
    points: kept.map(({ yMm, zMm, isKnuckle, yCell, zCell }) => ({ yMm, zMm, isKnuckle, yCell, zCell })),
    unsure: unsurePair(kept),
  };
}

export interface WideSection {
  readonly points: readonly OffsetPoint[];
  /** Two points of which the figures do not tell which comes first. */
  readonly unsure: readonly [LinePoint, LinePoint] | undefined;
}

function alongSection(points: readonly LinePoint[]): readonly LinePoint[] {
  const byBoth = points.toSorted((a, b) => a.yMm + a.zMm - b.yMm - b.zMm);
  if (points.length > MOST_LINES) return byBoth;
  const byHeight = points.toSorted((a, b) => a.zMm - b.zMm || a.yMm - b.yMm);
  const first = points.find(({ line }) => line.kind === 'rabbet' || line.kind === 'keel') ?? byBoth[0];
  const last = points.find(({ line }) => line.kind === 'sheer') ?? byHeight.at(-1);
  if (first === undefined || last === undefined || first === last) return byBoth;
  const all = [first, ...byBoth.filter((point) => point !== first && point !== last), last];
  return pathThrough(all.map(({ yMm, zMm }) => [yMm, zMm] as const)).flatMap((i) => all[i] ?? []);
}

/** Two neighbours could as well stand the other way round if the way then gets longer by no more than this share of what lies between them. */
const AS_WELL = 0.25;

function unsurePair(points: readonly LinePoint[]): WideSection['unsure'] {
  for (let i = 1; i + 2 < points.length; i++) {
    const [before, a, b, after] = points.slice(i - 1, i + 3);
    if (before === undefined || a === undefined || b === undefined || after === undefined) continue;
    const longerMm = chordMm(before, b) + chordMm(a, after) - chordMm(before, a) - chordMm(b, after);
    if (longerMm < AS_WELL * chordMm(a, b)) return [a, b];
  }
  return undefined;
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
