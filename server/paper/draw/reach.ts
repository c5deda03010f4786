/** How far an item reaches: from its left and upper end to its right and lower one. */
import type { Item } from './page.ts';
import { widthMm } from './typeface.ts';

export interface Reach {
  readonly leftMm: number;
  readonly topMm: number;
  readonly rightMm: number;
  readonly bottomMm: number;
}

/** Of letters above and below the base line, as a share of the size: a capital with its accent, and a descender. */
const ABOVE = 0.9;
const BELOW = 0.22;

export function reachOf(item: Item): Reach {
  if (item.kind === 'window') {
    const { byMm, fromMm, toMm } = item;
    return {
      leftMm: byMm[0] + fromMm[0],
      topMm: byMm[1] + fromMm[1],
      rightMm: byMm[0] + toMm[0],
      bottomMm: byMm[1] + toMm[1],
    };
  }
  if (item.kind === 'path') {
    const half = (item.stroke?.widthMm ?? 0) / 2;
    const points = item.lines.flat();
    const xs = points.map(([x]) => x);
    const ys = points.map(([, y]) => y);
    return {
      leftMm: least(xs) - half,
      topMm: least(ys) - half,
      rightMm: most(xs) + half,
      bottomMm: most(ys) + half,
    };
  }
  const { text, face, sizeMm, xMm, baseMm, isUpright } = item;
  const wide = widthMm(text, face, sizeMm);
  return isUpright
    ? { leftMm: xMm - ABOVE * sizeMm, topMm: baseMm - wide, rightMm: xMm + BELOW * sizeMm, bottomMm: baseMm }
    : { leftMm: xMm, topMm: baseMm - ABOVE * sizeMm, rightMm: xMm + wide, bottomMm: baseMm + BELOW * sizeMm };
}

const least = (all: readonly number[]): number => all.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
const most = (all: readonly number[]): number => all.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
