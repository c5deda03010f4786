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
