/**
 * A piecewise cubic held by its values and second derivatives at the knots, and carried on straight beyond its ends.
 * Source: derived (the cubic on one span that has the given values and second derivatives at both ends), as in
 * Green and Silverman, Nonparametric Regression and Generalized Linear Models, 1994, section 2.4.1 (from memory).
 * Error: rounding only, a few units in the last place of the largest of value and second x span^2.
 */
export interface Curve {
  readonly from: number;
  readonly to: number;
  valueAt(x: number): number;
  slopeAt(x: number): number;
  secondAt(x: number): number;
}

/** `x` strictly rising, at least two; `value` and `second` (the second derivative) one for each. */
export function cubicCurve(x: ArrayLike<number>, value: ArrayLike<number>, second: ArrayLike<number>): Curve {
  const last = x.length - 1;
  if (last < 1) throw new Error(`a curve needs at least 2 knots, got ${x.length}`);
  const from = x[0]!;
  const to = x[last]!;

  const slopeIn = (i: number, at: number): number => {
    const h = x[i + 1]! - x[i]!;
    const t = (at - x[i]!) / h;
    const u = 1 - t;
    return (
      (value[i + 1]! - value[i]!) / h + (h / 6) * ((3 * t * t - 1) * second[i + 1]! - (3 * u * u - 1) * second[i]!)
    );
  };
  const valueIn = (i: number, at: number): number => {
    const h = x[i + 1]! - x[i]!;
    const t = (at - x[i]!) / h;
    const u = 1 - t;
    const bulge = t * (t * t - 1) * second[i + 1]! + u * (u * u - 1) * second[i]!;
    return u * value[i]! + t * value[i + 1]! + ((h * h) / 6) * bulge;
  };

  return {
    from,
    to,
    valueAt: (at) => {
      if (at < from) return value[0]! + slopeIn(0, from) * (at - from);
      if (at > to) return value[last]! + slopeIn(last - 1, to) * (at - to);
      return valueIn(spanOf(x, at), at);
    },
    slopeAt: (at) => {
      const inside = Math.min(Math.max(at, from), to);
      return slopeIn(spanOf(x, inside), inside);
    },
    secondAt: (at) => {
      if (at < from || at > to) return 0;
      const i = spanOf(x, at);
      const t = (at - x[i]!) / (x[i + 1]! - x[i]!);
      return (1 - t) * second[i]! + t * second[i + 1]!;
    },
  };
}

/** The span `i` with x[i] <= at < x[i + 1]; the last one also holds its end. `at` lies within the knots. */
export function spanOf(x: ArrayLike<number>, at: number): number {
  let low = 0;
  let high = x.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (x[middle]! <= at) low = middle;
    else high = middle;
  }
  return low;
}
