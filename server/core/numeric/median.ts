/** The middle of the values, between the two middle ones of an even number; NaN of none. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

/**
 * Standard deviation of errors spread normally about 0, by the median of their sizes, so that a few wild ones do not count.
 * Source: 1 over the normal quantile of 3/4, 0.6745 (Huber, Robust Statistics, 1981, section 5.1; from memory). NaN of none.
 */
export const sdByMedian = (sizes: readonly number[]): number => 1.4826 * median(sizes);
