/**
 * The cubic spline (not a knot) through values at 0, 1, 2, ...: what `cubicSpline` gives there, found without a search, for the curves that
 * are read some ten thousand times a boat. Carried on straight beyond its ends.
 * Source and error: cubicSpline.ts, with every span 1.
 */
import type { Curve } from './cubicCurve.ts';
import { cubicSpline } from './cubicSpline.ts';

/** Fewer values are left to `cubicSpline`. */
const FEWEST = 5;

/** At least two values. */
export function unitSpline(values: Float64Array): Curve {
  if (values.length < FEWEST)
    return cubicSpline(
      Float64Array.from(values, (_, k) => k),
      values,
    );
  return new UnitCurve(values, seconds(values));
}

class UnitCurve implements Curve {
  readonly from = 0;
  readonly to: number;
  readonly #value: Float64Array;
  readonly #second: Float64Array;

  constructor(value: Float64Array, second: Float64Array) {
    this.#value = value;
    this.#second = second;
    this.to = value.length - 1;
  }

  valueAt(at: number): number {
    if (at < 0) return this.#value[0]! + this.slopeAt(0) * at;
    if (at > this.to) return this.#value[this.to]! + this.slopeAt(this.to) * (at - this.to);
    const i = Math.min(this.to - 1, Math.floor(at));
    const t = at - i;
    const w = 1 - t;
    const bulge = t * (t * t - 1) * this.#second[i + 1]! + w * (w * w - 1) * this.#second[i]!;
    return w * this.#value[i]! + t * this.#value[i + 1]! + bulge / 6;
  }

  slopeAt(at: number): number {
    const inside = Math.min(this.to, Math.max(0, at));
    const i = Math.min(this.to - 1, Math.floor(inside));
    const t = inside - i;
    const w = 1 - t;
    const chord = this.#value[i + 1]! - this.#value[i]!;
    return chord + ((3 * t * t - 1) * this.#second[i + 1]! - (3 * w * w - 1) * this.#second[i]!) / 6;
  }

  secondAt(at: number): number {
    if (at < 0 || at > this.to) return 0;
    const i = Math.min(this.to - 1, Math.floor(at));
    return (i + 1 - at) * this.#second[i]! + (at - i) * this.#second[i + 1]!;
  }
}

/** Of s[i-1] + 4 s[i] + s[i+1] = 6 d[i], d the second differences, with s running on straight over the second and the last but one. */
function seconds(value: Float64Array): Float64Array {
  const last = value.length - 1;
  const second = new Float64Array(last + 1);
  const factor = new Float64Array(last);
  const difference = (i: number): number => value[i + 1]! - 2 * value[i]! + value[i - 1]!;
  // At the first and the last inner value that leaves 6 s = 6 d alone.
  second[1] = difference(1);
  second[last - 1] = difference(last - 1);
  for (let i = 2; i < last - 1; i++) {
    const main = 4 - (i === 2 ? 0 : factor[i - 1]!);
    factor[i] = 1 / main;
    const before = second[i - 1]!;
    const after = i === last - 2 ? second[last - 1]! : 0;
    second[i] = (6 * difference(i) - before - after) / main;
  }
  for (let i = last - 3; i >= 2; i--) second[i]! -= factor[i]! * second[i + 1]!;
  second[0] = 2 * second[1]! - second[2]!;
  second[last] = 2 * second[last - 1]! - second[last - 2]!;
  return second;
}
