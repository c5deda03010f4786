/**
 * The two wedges on one stock, where the frame turns.
 *
 * Both come out of one cut, but the inner one lies deeper: a place of the frame falls elsewhere on it (unbentLength.ts). They are
 * registered near the turn of the bilge, where least is left: there they agree, and what they drift apart along the
 * frame is shared by the two sides of the turn instead of lying all at one end. Elsewhere the cut cannot have the bevel of both.
 * `outer` favoured: the cut has the outer wedge's bevel all along, the inner one is off by what the bevel changes over the drift.
 * `both` favoured: at each place of the stock the cut has the mean of the two bevels asked there; each wedge is then off by half.
 */

import type { BevelCurve } from '../frame/bevelCurve.ts';
import { goldenSection } from '../numeric/goldenSection.ts';
import { interpolate } from '../numeric/interpolate.ts';
import { rowAt } from '../rowAt.ts';

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
  const apart = stockMm.map((mm, i) => rowAt(innerStockMm, i) - mm);
  const crosses = (i: number): boolean =>
    apart[i] === 0 || (i > 0 && Math.sign(rowAt(apart, i)) !== Math.sign(rowAt(apart, i - 1)));
  const crossings = apart.flatMap((_, i) => (crosses(i) ? [nearerOf(apart, i - 1, i)] : []));
  if (crossings.length === 0) return apart.reduce((best, _, i) => nearerOf(apart, best, i), 0);
  return crossings.reduce((a, b) => (Math.abs(b - turnAt) < Math.abs(a - turnAt) ? b : a));
}

const nearerOf = (apart: readonly number[], a: number, b: number): number =>
  Math.abs(apart[a] ?? Number.POSITIVE_INFINITY) <= Math.abs(rowAt(apart, b)) ? a : b;

/** The bevel of the cut where this place of the frame falls on the inner wedge. The saw keeps its last bevel over the waste. */
export const innerSawnDeg = (lines: Lines, sawn: BevelCurve, innerStockMm: number): number =>
  sawn.bevelAtDeg(interpolate(lines.stockMm, lines.girthsMm, innerStockMm));

const SLOPE_OVER_MM = 5;

/** The mean of the bevels that the two wedges ask for at one place of the stock, by the girth of the outer one. */
export function sharedBevels({ girthsMm, stockMm, innerStockMm }: Lines, wanted: BevelCurve): BevelCurve {
  const shared = girthsMm.map((girthMm, i) => {
    const innerGirthMm = interpolate(innerStockMm, girthsMm, rowAt(stockMm, i));
    return (wanted.bevelAtDeg(girthMm) + wanted.bevelAtDeg(innerGirthMm)) / 2;
  });
  const bevelAtDeg = (girthMm: number): number => interpolate(girthsMm, shared, girthMm);
  return {
    bevelAtDeg,
    slopeAtDegPerMm: (girthMm) =>
      (bevelAtDeg(girthMm + SLOPE_OVER_MM) - bevelAtDeg(girthMm - SLOPE_OVER_MM)) / (2 * SLOPE_OVER_MM),
  };
}

/**
 * Where the two wedges are registered on one stock: the shift of the inner one's line for which the bevel that is left off inside is
 * least where it is worst.
 *
 * At a place g of the frame the inner wedge gets the bevel that the cut has where g falls on it: off by
 *     B(inner(g) + shift) - b(g),   to first order  b'(g) (D(g) + shift),
 * D the drift between both lines. At the turn of the bilge, the place of the greatest bevel, b' is nothing, so agreeing there alone
 * costs nothing; but b' has the other sign behind it, and so has the drift: both sides are then off to the same hand, each by as
 * much as its own slope and drift make it. Least is left where the worse side has been eased until both are alike. So the turn is
 * where the search starts, and is kept where no other place leaves less. The worst is the greatest of functions that are nearly
 * straight in the shift, so it has one valley; a coarse look over all shifts for which they agree anywhere, then a golden section.
 */
/** From heel to head, one entry a place. */
interface Unregistered {
  readonly stockMm: readonly number[];
  /** The inner wedge's line, from any start. */
  readonly innerMm: readonly number[];
  /** What the cut has where the place falls on the outer wedge, and what the frame asks for. */
  readonly sawnDeg: readonly number[];
  readonly wantedDeg: readonly number[];
}

interface Registered {
  /** To add to `innerMm`. */
  readonly shiftMm: number;
  /** The worst that is then left inside. */
  readonly worstDeg: number;
}

/** Less than this gained is no reason to leave the turn of the bilge. */
const WORTHWHILE_DEG = 0.005;
const COARSE_STEPS = 40;
const COARSE_PLACES = 120;
const FINE_MM = 0.01;

/** `turnAt`: which place is the turn of the bilge. */
export function registerWedges(lines: Unregistered, turnAt: number): Registered {
  const driftsMm = lines.stockMm.map((mm, i) => mm - rowAt(lines.innerMm, i));
  const atTurn = { shiftMm: rowAt(driftsMm, turnAt), worstDeg: worstDeg(lines, rowAt(driftsMm, turnAt)) };
  const [from, to] = [Math.min(...driftsMm), Math.max(...driftsMm)];
  if (atTurn.worstDeg < WORTHWHILE_DEG || to - from < FINE_MM) return atTurn;

  const few = thinnedOut(lines);
  const step = (to - from) / COARSE_STEPS;
  const coarse = Array.from({ length: COARSE_STEPS + 1 }, (_, i) => from + i * step);
  const best = coarse.reduce((a, b) => (worstDeg(few, b) < worstDeg(few, a) ? b : a));
  const shiftMm = goldenSection((at) => worstDeg(lines, at), best - step, best + step, FINE_MM);
  const least = { shiftMm, worstDeg: worstDeg(lines, shiftMm) };
  return least.worstDeg < atTurn.worstDeg - WORTHWHILE_DEG ? least : atTurn;
}

/** The greatest bevel (degrees) that is left inside at this shift. The saw keeps its last bevel over the waste. */
export function worstDeg({ stockMm, innerMm, sawnDeg, wantedDeg }: Unregistered, shiftMm: number): number {
  let worst = 0;
  for (const [i, mm] of innerMm.entries())
    worst = Math.max(worst, Math.abs(interpolate(stockMm, sawnDeg, mm + shiftMm) - rowAt(wantedDeg, i)));
  return worst;
}

/** Fewer places to ask, on the same cut. */
function thinnedOut(lines: Unregistered): Unregistered {
  const every = Math.ceil(lines.innerMm.length / COARSE_PLACES);
  const asked = (_: number, i: number): boolean => i % every === 0 || i === lines.innerMm.length - 1;
  return { ...lines, innerMm: lines.innerMm.filter(asked), wantedDeg: lines.wantedDeg.filter(asked) };
}
