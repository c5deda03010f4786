/**
 * The bent wedge laid out straight: where a place of the frame falls on the stock before it is bent.
 *
 * A wedge bent over the stack keeps the length of its neutral line, the line through the centroids of its sections. Where the
 * moulded edge has the curvature kappa (positive as a bilge, its centre inboard), a line at the depth h inboard of it is
 * 1 - kappa h as long as the moulded edge itself:  d(stock) = (1 - kappa h) d(girth).
 *
 * Depth of the neutral lines, with a and b the wedge's thickness at the moulded edge and across from it, and the centroid of the
 * section (a trapezium) at c = (a^2 + ab + b^2) / (3 (a + b)) from its flat:
 *   outer wedge: its flat lies at the depth a, its wood outboard of the flat:           h = a - c
 *   inner wedge: the stack holds its flat at the depth M - a', M the moulding and a' the thickness at the moulded edge that the
 *                cut leaves beside the outer wedge's a; its wood lies inboard of that:  h = M - a' + c'
 *                with c' of the section that the inner wedge has there: its own, for the place falls elsewhere on it.
 *
 * Left out: where a changes along the frame the flat lies askew to the moulded edge by that slope, and is longer by half its square
 * (a slope of 0.015: 0.1 mm a metre). Along a fence with the axis at the table a does not change.
 *
 * The two wedges come out of one rip, so where the frame turns they cannot fit all along: they are registered where least is left
 * (registered.ts), and both lines are given in the stock's own measure (0 at mark 1 of the outer wedge).
 */
import { lastRow, rowAt } from '../rowAt.ts';
import { type Edge, type EdgesMm, edgeOf, otherEdge } from './wedges.ts';

/** The lengths below are good to this over the whole frame, as far as the curvature itself is known. */
const LENGTH_ERROR_MM = 0.001;

/** Distance of a wedge's centroid from its flat, for its thickness at both edges. */
export const centroidFromFlatMm = (a: number, b: number): number => (a * a + a * b + b * b) / (3 * (a + b));

/** Depth of the outer wedge's neutral line inboard of the moulded edge. */
export function outerDepthMm(outerMm: EdgesMm, moulded: Edge): number {
  const a = edgeOf(outerMm, moulded);
  return a - centroidFromFlatMm(a, edgeOf(outerMm, otherEdge(moulded)));
}

/** Depth of the inner wedge's flat inboard of the moulded edge; `innerMm` as the cut leaves it beside the outer wedge. */
export const innerFlatDepthMm = (innerMm: EdgesMm, moulded: Edge, mouldingMm: number): number =>
  mouldingMm - edgeOf(innerMm, moulded);

/** How far the inner wedge's neutral line lies inboard of its flat, where it has these edges. */
export const innerCentroidMm = (innerMm: EdgesMm, moulded: Edge): number =>
  centroidFromFlatMm(edgeOf(innerMm, moulded), edgeOf(innerMm, otherEdge(moulded)));

interface LineAlong {
  readonly girthsMm: readonly number[];
  readonly alongMm: readonly number[];
  readonly curvaturesPerMm: readonly number[];
}

/**
 * A line that was reckoned with one centroid's height at each place, for another: the difference is small, so steps of the given
 * places are fine enough (trapezium rule).
 */
export function byOwnSection(
  { girthsMm, alongMm, curvaturesPerMm }: LineAlong,
  reckonedMm: readonly number[],
  ownMm: readonly number[],
): number[] {
  const shorterBy = girthsMm.map((_, i) => rowAt(curvaturesPerMm, i) * (rowAt(ownMm, i) - rowAt(reckonedMm, i)));
  let lessMm = 0;
  return alongMm.map((mm, i) => {
    if (i === 0) return mm;
    const stepMm = rowAt(girthsMm, i) - rowAt(girthsMm, i - 1);
    lessMm += ((rowAt(shorterBy, i) + rowAt(shorterBy, i - 1)) / 2) * stepMm;
    return mm - lessMm;
  });
}

/**
 * Lengths from the first of `girthsMm` (rising) to each of them, of a line that is `stretch(girth)` times as long as the girth.
 * Simpson's rule, each piece halved until two answers in a row agree within its share of LENGTH_ERROR_MM; the later of the two is
 * then better still, by the rule's own order.
 */
export function lengthsAlongMm(girthsMm: readonly number[], stretch: (girthMm: number) => number): number[] {
  const first = rowAt(girthsMm, 0);
  const wholeMm = lastRow(girthsMm) - first;
  const lengths: number[] = [];
  let fromMm = first;
  let alongMm = 0;
  for (const girthMm of girthsMm) {
    if (girthMm > fromMm)
      alongMm += integral(stretch, fromMm, girthMm, (LENGTH_ERROR_MM * (girthMm - fromMm)) / wholeMm);
    lengths.push(alongMm);
    fromMm = girthMm;
  }
  return lengths;
}

const FINEST_PARTS = 256;

function integral(f: (x: number) => number, from: number, to: number, error: number): number {
  let before = simpson(f, from, to, 2);
  for (let parts = 4; parts <= FINEST_PARTS; parts *= 2) {
    const now = simpson(f, from, to, parts);
    if (Math.abs(now - before) <= error) return now;
    before = now;
  }
  return before;
}

function simpson(f: (x: number) => number, from: number, to: number, parts: number): number {
  const step = (to - from) / parts;
  let sum = f(from) + f(to);
  for (let i = 1; i < parts; i++) sum += f(from + i * step) * (i % 2 === 1 ? 4 : 2);
  return (sum * step) / 3;
}
