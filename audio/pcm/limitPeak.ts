/**
 * Holds every sample at or under `ceiling` without clipping: the gain that each sample needs, its least over a window,
 * then the mean over the same window. Every gain in that mean is at most what the sample in the middle needs, so the
 * bound is exact (but for the last bit); the gain moves no faster than the window allows.
 *
 * @param reach samples on either side of a peak within which the gain bends.
 */
export function limitPeak(samples: Float64Array, ceiling: number, reach: number): Float64Array {
  const needed = samples.map((s) => (Math.abs(s) > ceiling ? ceiling / Math.abs(s) : 1));
  const gain = slidingMean(slidingLeast(needed, reach), reach);
  return samples.map((s, i) => s * at(gain, i));
}

/** The least of each value and its neighbours: indices of candidates wait in a queue, least value first. */
function slidingLeast(values: Float64Array, reach: number): Float64Array {
  const queue = new Int32Array(values.length);
  let head = 0;
  let tail = 0;
  let next = 0;
  return values.map((_, i) => {
    for (; next < values.length && next <= i + reach; next += 1) {
      while (tail > head && at(values, at(queue, tail - 1)) >= at(values, next)) tail -= 1;
      queue[tail] = next;
      tail += 1;
    }
    while (at(queue, head) < i - reach) head += 1;
    return at(values, at(queue, head));
  });
}

/** The mean of each value and its neighbours, as far as there are any. */
function slidingMean(values: Float64Array, reach: number): Float64Array {
  const sums = new Float64Array(values.length + 1);
  for (let i = 0; i < values.length; i += 1) sums[i + 1] = at(sums, i) + at(values, i);
  return values.map((_, i) => {
    const from = Math.max(0, i - reach);
    const to = Math.min(values.length, i + reach + 1);
    return (at(sums, to) - at(sums, from)) / (to - from);
  });
}

function at(values: Float64Array | Int32Array, index: number): number {
  const value = values[index];
  if (value === undefined) throw new RangeError(`sample ${index} of ${values.length}`);
  return value;
}
