/** Piecewise-linear interpolation in a table of rising `xs`; beyond its ends the end value holds. Exact at the knots. */
export function interpolate(xs: readonly number[], ys: readonly number[], x: number): number {
  if (xs.length === 0 || xs.length !== ys.length)
    throw new Error(`a table needs as many values as places: ${xs.length}, ${ys.length}`);
  let low = 0;
  let high = xs.length - 1;
  if (x <= xs[low]!) return ys[low]!;
  if (x >= xs[high]!) return ys[high]!;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (xs[middle]! <= x) low = middle;
    else high = middle;
  }
  const share = (x - xs[low]!) / (xs[high]! - xs[low]!);
  return ys[low]! + share * (ys[high]! - ys[low]!);
}

/** Index of the first of rising `xs` that is greater than `x`; their number where none is. By halving, exact. */
export function firstBeyond(xs: readonly number[], x: number): number {
  let low = 0;
  let high = xs.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (xs[middle]! <= x) low = middle + 1;
    else high = middle;
  }
  return low;
}
