/**
 * A smooth plane curve held by close nodes, with figures that vary along it: all are cubic splines (not a knot) over the nodes'
 * numbers. Asked by arc length, or by parameter (the node's number).
 * Source: unitSpline.ts; arc length by the three-point Gauss rule between nodes, inverted by Newton's rule (definitions, derived).
 * Error: that of the spline over the nodes; beyond its ends everything is carried on straight.
 */
import { type Curve, spanOf } from './cubicCurve.ts';
import { unitSpline } from './unitSpline.ts';

export interface NodedCurve {
  readonly nodes: number;
  readonly length: number;
  parameterAt(along: number): number;
  readonly u: Curve;
  readonly v: Curve;
  speedAt(parameter: number): number;
  /** Positive where it turns from u toward v. */
  curvatureAt(parameter: number): number;
  /** Spline of a figure given at the nodes, over the same parameter. */
  figure(atNodes: Float64Array): Curve;
  /** The parameter where the line square to (`du`, `dv`) through (`u`, `v`) meets the curve, looked for from `near`. */
  across(u: number, v: number, du: number, dv: number, near: number): number;
}

export function nodedCurve(atU: Float64Array, atV: Float64Array): NodedCurve {
  const nodes = atU.length;
  const u = unitSpline(atU);
  const v = unitSpline(atV);
  const speedAt = (t: number): number => Math.hypot(u.slopeAt(t), v.slopeAt(t));
  // Not every curve is asked for its length.
  let known: Float64Array | undefined;
  const sumsOf = (): Float64Array => {
    if (known !== undefined) return known;
    known = new Float64Array(nodes);
    for (let k = 1; k < nodes; k++) known[k] = known[k - 1]! + gauss(speedAt, k - 1, k);
    return known;
  };

  return {
    nodes,
    get length() {
      return sumsOf()[nodes - 1]!;
    },
    u,
    v,
    speedAt,
    parameterAt: (along) => {
      const sums = sumsOf();
      const length = sums[nodes - 1]!;
      if (along <= 0) return along / speedAt(0);
      if (along >= length) return nodes - 1 + (along - length) / speedAt(nodes - 1);
      const k = spanOf(sums, along);
      let t = k + (along - sums[k]!) / (sums[k + 1]! - sums[k]!);
      for (let round = 0; round < 2; round++)
        t = Math.min(k + 1, Math.max(k, t - (sums[k]! + gauss(speedAt, k, t) - along) / speedAt(t)));
      return t;
    },
    curvatureAt: (t) => {
      const at = Math.min(nodes - 1, Math.max(0, t));
      return (u.slopeAt(at) * v.secondAt(at) - v.slopeAt(at) * u.secondAt(at)) / speedAt(at) ** 3;
    },
    figure: (atNodes) => unitSpline(atNodes),
    across: (pu, pv, du, dv, near) => {
      let t = near;
      for (let round = 0; round < MOST_ROUNDS; round++) {
        const off = (u.valueAt(t) - pu) * du + (v.valueAt(t) - pv) * dv;
        const slope = u.slopeAt(t) * du + v.slopeAt(t) * dv;
        // Where the curve turns away from the line no step is worth more than a few nodes.
        const step = Math.max(-FARTHEST_STEP, Math.min(FARTHEST_STEP, off / slope));
        t -= step;
        if (Math.abs(step) < WITHIN_NODES) break;
      }
      return t;
    },
  };
}

const MOST_ROUNDS = 30;
const FARTHEST_STEP = 4;
const WITHIN_NODES = 1e-9;

const ROOT = Math.sqrt(0.15);
function gauss(f: (t: number) => number, from: number, to: number): number {
  const h = to - from;
  return (h * (5 * f(from + h * (0.5 - ROOT)) + 8 * f(from + h / 2) + 5 * f(from + h * (0.5 + ROOT)))) / 18;
}
