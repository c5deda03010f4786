/**
 * A sheet lofted through plane curves that stand one behind the other: every curve is given at the same nodes, node k of all
 * curves is joined by cubic splines (not a knot) over their places, and along each curve by cubic splines over the nodes' numbers.
 * Both maps are linear and commute, so slopes along the curves are lofted as the points are.
 * Source: tensor-product splines, de Boor, A Practical Guide to Splines, 1978, chapter XVII (from memory); derived otherwise.
 * Error: that of the two splines; beyond the outermost curves the last cubic is carried on.
 */

import { spanOf } from './cubicCurve.ts';
import { splineOperator } from './splineOperator.ts';
import { unitSpline } from './unitSpline.ts';

/** A point of the sheet: place in the plane, its derivatives by x (lengthwise) and by the node's number (along the curve). */
export interface SheetPoint {
  u: number;
  v: number;
  ux: number;
  vx: number;
  us: number;
  vs: number;
}

export interface LoftedSheet {
  readonly nodes: number;
  /** Writes the point of node k at x into `into`. */
  at(x: number, k: number, into: SheetPoint): void;
}

/** `x` strictly rising, one for each curve, at least two; `u` and `v` curve after curve, `nodes` values each. */
export function loftedSheet(x: Float64Array, nodes: number, u: Float64Array, v: Float64Array): LoftedSheet {
  const operator = splineOperator(x);
  const fields = [u, v, alongSlopes(u, nodes), alongSlopes(v, nodes)].map((values) => ({
    values,
    second: seconds(operator, values, x.length, nodes),
  }));
  const [fu, fv, fus, fvs] = fields as [Field, Field, Field, Field];
  return {
    nodes,
    at: (place, k, into) => {
      const i = spanOf(x, place);
      const h = x[i + 1]! - x[i]!;
      const t = (place - x[i]!) / h;
      const a = i * nodes + k;
      const b = a + nodes;
      into.u = valueIn(fu, a, b, t, h);
      into.v = valueIn(fv, a, b, t, h);
      into.ux = slopeIn(fu, a, b, t, h);
      into.vx = slopeIn(fv, a, b, t, h);
      into.us = valueIn(fus, a, b, t, h);
      into.vs = valueIn(fvs, a, b, t, h);
    },
  };
}

interface Field {
  readonly values: Float64Array;
  readonly second: Float64Array;
}

function valueIn({ values, second }: Field, a: number, b: number, t: number, h: number): number {
  const w = 1 - t;
  return (
    w * values[a]! + t * values[b]! + ((h * h) / 6) * (t * (t * t - 1) * second[b]! + w * (w * w - 1) * second[a]!)
  );
}

function slopeIn({ values, second }: Field, a: number, b: number, t: number, h: number): number {
  const w = 1 - t;
  return (values[b]! - values[a]!) / h + (h / 6) * ((3 * t * t - 1) * second[b]! - (3 * w * w - 1) * second[a]!);
}

function alongSlopes(values: Float64Array, nodes: number): Float64Array {
  const slopes = new Float64Array(values.length);
  for (let from = 0; from < values.length; from += nodes) {
    const curve = unitSpline(values.subarray(from, from + nodes));
    for (let k = 0; k < nodes; k++) slopes[from + k] = curve.slopeAt(k);
  }
  return slopes;
}

function seconds(operator: Float64Array, values: Float64Array, curves: number, nodes: number): Float64Array {
  const second = new Float64Array(values.length);
  for (let i = 0; i < curves; i++)
    for (let j = 0; j < curves; j++) {
      const share = operator[i * curves + j]!;
      for (let k = 0; k < nodes; k++) second[i * nodes + k]! += share * values[j * nodes + k]!;
    }
  return second;
}
