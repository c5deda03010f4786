/**
 * The hull's surface from its table of offsets. Each section is a parametric curve (a flat floor and a plumb side are vertical and
 * horizontal somewhere: no y = f(z)), its nodes divide its length evenly, and nodes are lofted fore and aft. A knuckle parts every
 * section, and so the surface, into pieces that are smooth in themselves and meet sharply.
 * Sources: evenNodes.ts, loftedSheet.ts.
 */

import { evenNodes } from '../numeric/spline/evenNodes.ts';
import { type LoftedSheet, loftedSheet } from '../numeric/spline/loftedSheet.ts';
import { lastRow, rowAt } from '../rowAt.ts';
import type { HullStation, OffsetPoint, OffsetTable } from './offsets.ts';

export interface HullSurface {
  readonly fromMm: number;
  readonly toMm: number;
  /** Pieces between knuckles, from the keel up. u is the half-breadth, v the height. */
  readonly pieces: readonly LoftedSheet[];
}

/** So many nodes over a whole section, far closer than a table's points; on a piece between knuckles at least a few. */
const NODES = 96;
const FEWEST_NODES = 12;

export function hullSurface({ stations }: OffsetTable, nodesOfAll: number = NODES): HullSurface {
  const x = Float64Array.from(stations, ({ xMm }) => xMm);
  const parted = stations.map(pieces);
  const girths = parted.map((parts) => parts.map(girthOf));
  const count = Math.min(...parted.map((parts) => parts.length));
  const sheets = Array.from({ length: count }, (_, piece) => {
    const nodes = nodesFor(girths, piece, nodesOfAll);
    const u = new Float64Array(stations.length * nodes);
    const v = new Float64Array(stations.length * nodes);
    parted.forEach((parts, i) => {
      const curve = evenNodes(
        (parts[piece] ?? []).map(({ yMm, zMm }) => [yMm, zMm] as const),
        nodes,
      );
      u.set(curve.u, i * nodes);
      v.set(curve.v, i * nodes);
    });
    return loftedSheet(x, nodes, u, v);
  });
  return { fromMm: rowAt(x, 0), toMm: lastRow(x), pieces: sheets };
}

/** A section's points between one knuckle and the next; a knuckle belongs to both. */
export function pieces({ points }: HullStation): readonly (readonly OffsetPoint[])[] {
  const cuts = points.flatMap(({ isKnuckle }, i) => (isKnuckle && i > 0 && i < points.length - 1 ? [i] : []));
  const ends = [0, ...cuts, points.length - 1];
  return ends.slice(1).map((to, i) => points.slice(ends[i], to + 1));
}

function girthOf(points: readonly OffsetPoint[]): number {
  let girthMm = 0;
  points.forEach(({ yMm, zMm }, i) => {
    const before = points[i - 1];
    if (before !== undefined) girthMm += Math.hypot(yMm - before.yMm, zMm - before.zMm);
  });
  return girthMm;
}

/** Shared out by the mean girth of the piece over all stations: the same on every station, so that nodes answer each other. */
function nodesFor(girths: readonly (readonly number[])[], piece: number, nodesOfAll: number): number {
  const shares = girths.map((parts) => rowAt(parts, piece) / parts.reduce((sum, girthMm) => sum + girthMm, 0));
  const share = shares.reduce((sum, one) => sum + one, 0) / shares.length;
  return Math.max(FEWEST_NODES, Math.round(nodesOfAll * share)) + 1;
}
