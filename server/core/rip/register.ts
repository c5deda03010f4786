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
import { goldenSection } from '../numeric/goldenSection.ts';
import { interpolate } from '../numeric/interpolate.ts';

/** From heel to head, one entry a place. */
export interface Unregistered {
  readonly stockMm: readonly number[];
  /** The inner wedge's line, from any start. */
  readonly innerMm: readonly number[];
  /** What the cut has where the place falls on the outer wedge, and what the frame asks for. */
  readonly sawnDeg: readonly number[];
  readonly wantedDeg: readonly number[];
}

export interface Registered {
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
  const driftsMm = lines.stockMm.map((mm, i) => mm - (lines.innerMm[i] ?? 0));
  const atTurn = { shiftMm: driftsMm[turnAt] ?? 0, worstDeg: worstDeg(lines, driftsMm[turnAt] ?? 0) };
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
    worst = Math.max(worst, Math.abs(interpolate(stockMm, sawnDeg, mm + shiftMm) - (wantedDeg[i] ?? 0)));
  return worst;
}

/** Fewer places to ask, on the same cut. */
function thinnedOut(lines: Unregistered): Unregistered {
  const every = Math.ceil(lines.innerMm.length / COARSE_PLACES);
  const asked = (_: number, i: number): boolean => i % every === 0 || i === lines.innerMm.length - 1;
  return { ...lines, innerMm: lines.innerMm.filter(asked), wantedDeg: lines.wantedDeg.filter(asked) };
}
