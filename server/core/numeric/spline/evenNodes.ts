/**
 * A smooth plane curve through points, and nodes on it that divide its length evenly. The nodes belong to the shape and not to where
 * points happen to lie, so that nodes of neighbouring curves answer each other however each was measured.
 * Source: cubic splines (not a knot) over summed chords, as planeSpline.ts; the length by the three-point Gauss rule on eight parts of
 * each span, its inverse by Newton's rule inside a part (definitions, derived).
 * Why chords and not their roots: over summed chords a smooth curve is met to the fourth order wherever the points lie; roots of chords
 * are better on a bilge that has too few points, and ten times worse where points lie unevenly (measured).
 * Error: the length to about 1e-6 of the whole where the curve is smooth on the scale of a part; the nodes lie on the curve exactly.
 */
import { type Curve, spanOf } from './cubicCurve.ts';
import { cubicSpline } from './cubicSpline.ts';
import type { PlanePoint } from './planeSpline.ts';

const PARTS = 8;
const GAUSS = [
  [0.5 - Math.sqrt(0.15), 5 / 18],
  [0.5, 4 / 9],
  [0.5 + Math.sqrt(0.15), 5 / 18],
] as const;

interface EvenNodes {
  readonly u: Float64Array;
  readonly v: Float64Array;
  /** Arc length of the whole. */
  readonly length: number;
  /** The share of the length, 0 to 1, at each of the given points. */
  readonly share: Float64Array;
}

/** `points`: at least two, no two neighbours the same; `nodes` at least two. */
export function evenNodes(points: readonly PlanePoint[], nodes: number): EvenNodes {
  const knots = new Float64Array(points.length);
  for (let i = 1; i < points.length; i++) {
    const [u0, v0] = points[i - 1]!;
    const [u1, v1] = points[i]!;
    knots[i] = knots[i - 1]! + Math.hypot(u1 - u0, v1 - v0);
  }
  const [u, v] = [0, 1].map((side) =>
    cubicSpline(
      knots,
      points.map((point) => point[side as 0 | 1]),
    ),
  ) as [Curve, Curve];
  const parts = (points.length - 1) * PARTS;
  const partAt = Float64Array.from({ length: parts + 1 }, (_, p) => {
    const i = Math.min(points.length - 2, Math.floor(p / PARTS));
    return knots[i]! + ((p - i * PARTS) / PARTS) * (knots[i + 1]! - knots[i]!);
  });
  const speed = (t: number): number => Math.hypot(u.slopeAt(t), v.slopeAt(t));
  const sums = integrate(speed, partAt);
  const length = sums[parts]!;

  const outU = new Float64Array(nodes);
  const outV = new Float64Array(nodes);
  for (let k = 0; k < nodes; k++) {
    const wanted = (length * k) / (nodes - 1);
    const t = k === 0 ? 0 : k === nodes - 1 ? partAt[parts]! : placeOf(speed, partAt, sums, wanted);
    outU[k] = u.valueAt(t);
    outV[k] = v.valueAt(t);
  }
  return { u: outU, v: outV, length, share: Float64Array.from(points, (_, i) => sums[i * PARTS]! / length) };
}

function integrate(f: (t: number) => number, at: Float64Array): Float64Array {
  const sums = new Float64Array(at.length);
  for (let p = 1; p < at.length; p++) sums[p] = sums[p - 1]! + gauss(f, at[p - 1]!, at[p]!);
  return sums;
}

function gauss(f: (t: number) => number, from: number, to: number): number {
  const h = to - from;
  let sum = 0;
  for (const [node, weight] of GAUSS) sum += weight * f(from + h * node);
  return h * sum;
}

function placeOf(speed: (t: number) => number, at: Float64Array, sums: Float64Array, wanted: number): number {
  const p = spanOf(sums, wanted);
  const [from, to] = [at[p]!, at[p + 1]!];
  let t = from + ((wanted - sums[p]!) / (sums[p + 1]! - sums[p]!)) * (to - from);
  for (let round = 0; round < 3; round++) {
    const off = sums[p]! + gauss(speed, from, t) - wanted;
    t = Math.min(to, Math.max(from, t - off / speed(t)));
  }
  return t;
}
