/**
 * The order of scattered points along a curve of which only the ends are known: the shortest way from the first to the last through all of
 * them. On a curve whose points lie closer together than its branches do, that is the curve's own order.
 * Source: farthest insertion (Rosenkrantz, Stearns and Lewis, SIAM J. Comput. 6 (1977), 563-581), then turning stretches about (2-opt) and
 * moving single points until nothing gets shorter (Croes, Operations Research 6 (1958), 791-812); both from memory.
 * Error: a way that no such change makes shorter; whether it is the curve's order is tried in test/wire/table/wideBlock.test.ts.
 */
import type { PlanePoint } from './planeSpline.ts';

/** Each round ends shorter than it began, so it would end anyway: only to be sure. */
const MOST_ROUNDS = 200;
const LEAST_GAIN = 1e-9;

/** The numbers of `points` in their order; the first and the last stay where they are. */
export function pathThrough(points: readonly PlanePoint[]): readonly number[] {
  const apart = (i: number, j: number): number =>
    Math.hypot(points[i]![0] - points[j]![0], points[i]![1] - points[j]![1]);
  const path = insertFarthest(points.length, apart);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const isTurned = turnAbout(path, apart);
    const isMoved = moveSingle(path, apart);
    if (!isTurned && !isMoved) break;
  }
  return path;
}

type Apart = (i: number, j: number) => number;

/** Begins with the ends; of the points that are left always the one farthest from all that are in, where it costs least. */
function insertFarthest(count: number, apart: Apart): number[] {
  if (count < 3) return Array.from({ length: count }, (_, i) => i);
  const path = [0, count - 1];
  const left = new Set(Array.from({ length: count - 2 }, (_, i) => i + 1));
  const nearest = Float64Array.from({ length: count }, (_, i) => Math.min(apart(i, 0), apart(i, count - 1)));
  while (left.size > 0) {
    let farthest = -1;
    for (const i of left) if (farthest < 0 || nearest[i]! > nearest[farthest]!) farthest = i;
    left.delete(farthest);
    path.splice(cheapestPlace(path, farthest, apart).at, 0, farthest);
    for (const i of left) nearest[i] = Math.min(nearest[i]!, apart(i, farthest));
  }
  return path;
}

function cheapestPlace(
  path: readonly number[],
  point: number,
  apart: Apart,
): { readonly at: number; readonly cost: number } {
  let best = { at: 1, cost: Infinity };
  for (let at = 1; at < path.length; at++) {
    const [before, after] = [path[at - 1]!, path[at]!];
    const cost = apart(before, point) + apart(point, after) - apart(before, after);
    if (cost < best.cost) best = { at, cost };
  }
  return best;
}

/** Turns stretches about wherever that makes the way shorter; whether it did. */
function turnAbout(path: number[], apart: Apart): boolean {
  let isShorter = false;
  for (let i = 1; i < path.length - 2; i++)
    for (let j = i + 1; j < path.length - 1; j++) {
      const [before, first, last, after] = [path[i - 1]!, path[i]!, path[j]!, path[j + 1]!];
      if (apart(before, last) + apart(first, after) > apart(before, first) + apart(last, after) - LEAST_GAIN) continue;
      path.splice(i, j - i + 1, ...path.slice(i, j + 1).reverse());
      isShorter = true;
    }
  return isShorter;
}

function moveSingle(path: number[], apart: Apart): boolean {
  let isShorter = false;
  for (let i = 1; i < path.length - 1; i++) {
    const [before, point, after] = [path[i - 1]!, path[i]!, path[i + 1]!];
    const saved = apart(before, point) + apart(point, after) - apart(before, after);
    const without = path.toSpliced(i, 1);
    const { at, cost } = cheapestPlace(without, point, apart);
    if (cost > saved - LEAST_GAIN) continue;
    path.splice(i, 1);
    path.splice(at, 0, point);
    isShorter = true;
  }
  return isShorter;
}
