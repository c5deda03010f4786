/**
 * The two wedges on one stock, where the frame turns.
 *
 * Both come out of one cut, but the inner one lies deeper: a place of the frame falls elsewhere on it (straighten.ts). They are
 * registered near the turn of the bilge, where least is left (register.ts): there they agree, and what they drift apart along the
 * frame is shared by the two sides of the turn instead of lying all at one end. Elsewhere the cut cannot have the bevel of both.
 * `outer` favoured: the cut has the outer wedge's bevel all along, the inner one is off by what the bevel changes over the drift.
 * `both` favoured: at each place of the stock the cut has the mean of the two bevels asked there; each wedge is then off by half.
 */
import { interpolate } from '../numeric/interpolate.ts';
import type { BevelCurve } from './bevelCurve.ts';

/** From heel to head, one entry a place. */
export interface Lines {
  readonly girthsMm: readonly number[];
  readonly stockMm: readonly number[];
  readonly innerStockMm: readonly number[];
}

/** Bevels that differ by less count as equal. */
const EQUAL_DEG = 1e-4;

/** The place of the greatest bevel of either hand; the first one where several are as great. */
export function greatestAt(bevelsDeg: readonly number[]): number {
  const greatest = bevelsDeg.reduce((most, deg) => Math.max(most, Math.abs(deg)), 0);
  return Math.max(
    0,
    bevelsDeg.findIndex((deg) => Math.abs(deg) >= greatest - EQUAL_DEG),
  );
}

/** The place where the inner line crosses the outer one, or comes nearest to it; of several the one nearest to the turn. */
export function agreeAt({ stockMm, innerStockMm }: Lines, turnAt: number): number {
  const apart = stockMm.map((mm, i) => (innerStockMm[i] ?? 0) - mm);
  const crosses = (i: number): boolean =>
    apart[i] === 0 || (i > 0 && Math.sign(apart[i] ?? 0) !== Math.sign(apart[i - 1] ?? 0));
  const crossings = apart.flatMap((_, i) => (crosses(i) ? [nearerOf(apart, i - 1, i)] : []));
  if (crossings.length === 0) return apart.reduce((best, _, i) => nearerOf(apart, best, i), 0);
  return crossings.reduce((a, b) => (Math.abs(b - turnAt) < Math.abs(a - turnAt) ? b : a));
}

const nearerOf = (apart: readonly number[], a: number, b: number): number =>
  Math.abs(apart[a] ?? Number.POSITIVE_INFINITY) <= Math.abs(apart[b] ?? 0) ? a : b;

/** The bevel of the cut where this place of the frame falls on the inner wedge. The saw keeps its last bevel over the waste. */
export const innerSawnDeg = (lines: Lines, sawn: BevelCurve, innerStockMm: number): number =>
  sawn.bevelAtDeg(interpolate(lines.stockMm, lines.girthsMm, innerStockMm));

const SLOPE_OVER_MM = 5;

/** The mean of the bevels that the two wedges ask for at one place of the stock, by the girth of the outer one. */
export function sharedBevels({ girthsMm, stockMm, innerStockMm }: Lines, wanted: BevelCurve): BevelCurve {
  const shared = girthsMm.map((girthMm, i) => {
    const innerGirthMm = interpolate(innerStockMm, girthsMm, stockMm[i] ?? 0);
    return (wanted.bevelAtDeg(girthMm) + wanted.bevelAtDeg(innerGirthMm)) / 2;
  });
  const bevelAtDeg = (girthMm: number): number => interpolate(girthsMm, shared, girthMm);
  return {
    bevelAtDeg,
    slopeAtDegPerMm: (girthMm) =>
      (bevelAtDeg(girthMm + SLOPE_OVER_MM) - bevelAtDeg(girthMm - SLOPE_OVER_MM)) / (2 * SLOPE_OVER_MM),
  };
}
