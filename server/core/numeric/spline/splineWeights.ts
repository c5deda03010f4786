/**
 * How much each value counts at a place between the knots of a cubic spline (not a knot): the spline read as what it is, a linear map.
 * Source: splineOperator.ts (derived). Over many knots only those around the place are asked: what a value counts falls by 2 - sqrt 3
 * from knot to knot (de Boor, A Practical Guide to Splines, 1978, chapter IV, from memory).
 * Error: 1e-7 of the greatest weight, from the knots that are left out.
 */
import { spanOf } from './cubicCurve.ts';
import { splineOperator } from './splineOperator.ts';

/** So many knots are asked at a time, of windows that begin so far apart: never fewer than twelve on either side of a place. */
const WINDOW = 32;
const EVERY = 8;

export interface Weights {
  /** The first value that counts, and what it and those behind it count: for the value at the place, and for the slope there. */
  readonly from: number;
  readonly ofValue: Float64Array;
  readonly ofSlope: Float64Array;
}

/** `x` strictly rising, at least two. */
export class SplineWeights {
  readonly #x: Float64Array;
  readonly #operators = new Map<number, Float64Array>();

  constructor(x: Float64Array) {
    this.#x = x;
  }

  /** At a place; the outermost cubics are carried on beyond the ends. */
  at(place: number): Weights {
    const x = this.#x;
    const i = spanOf(x, place);
    const from = Math.max(0, Math.min(x.length - WINDOW, EVERY * Math.floor((i - (WINDOW - EVERY) / 2) / EVERY)));
    const size = Math.min(WINDOW, x.length);
    const operator = this.#operator(from, size);
    const h = x[i + 1]! - x[i]!;
    const t = (place - x[i]!) / h;
    const w = 1 - t;
    const [low, high] = [(i - from) * size, (i + 1 - from) * size];
    const [bulgeLow, bulgeHigh] = [(h * h * w * (w * w - 1)) / 6, (h * h * t * (t * t - 1)) / 6];
    const [turnLow, turnHigh] = [(-h * (3 * w * w - 1)) / 6, (h * (3 * t * t - 1)) / 6];
    const ofValue = new Float64Array(size);
    const ofSlope = new Float64Array(size);
    for (let j = 0; j < size; j++) {
      ofValue[j] = bulgeLow * operator[low + j]! + bulgeHigh * operator[high + j]!;
      ofSlope[j] = turnLow * operator[low + j]! + turnHigh * operator[high + j]!;
    }
    ofValue[i - from]! += w;
    ofValue[i + 1 - from]! += t;
    ofSlope[i - from]! -= 1 / h;
    ofSlope[i + 1 - from]! += 1 / h;
    return { from, ofValue, ofSlope };
  }

  #operator(from: number, size: number): Float64Array {
    const known = this.#operators.get(from);
    if (known !== undefined) return known;
    const made = splineOperator(this.#x.subarray(from, from + size));
    this.#operators.set(from, made);
    return made;
  }
}
