/**
 * The root of a rising function between two ends: Newton's step where it stays inside the bracket and at least halves the
 * last step, bisection where not.
 * Source: the safeguarded Newton method of Press et al., Numerical Recipes, section 9.4 (from memory).
 * Error: the place to within `within`, or to the last bits where that is finer; never outside the ends.
 */
export function safeguardedRoot(
  f: (x: number) => { readonly value: number; readonly slope: number },
  from: number,
  to: number,
  within: number,
): number {
  let low = from;
  let high = to;
  let x = (low + high) / 2;
  let lastStep = high - low;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const { value, slope } = f(x);
    if (value === 0) return x;
    if (value < 0) low = x;
    else high = x;
    const newton = x - value / slope;
    const isGood = newton > low && newton < high && Math.abs(newton - x) <= Math.abs(lastStep) / 2;
    const next = isGood ? newton : (low + high) / 2;
    lastStep = next - x;
    x = next;
    if (Math.abs(lastStep) <= within) return x;
  }
  return x;
}

/** Bisection alone uses up the bits of a double in some 60 rounds; every other round may be Newton's. */
const MOST_ROUNDS = 120;
