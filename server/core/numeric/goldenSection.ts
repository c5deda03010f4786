/**
 * The least value of a function that falls and then rises between two ends, by golden section.
 * Source: Kiefer, "Sequential minimax search for a maximum", Proc. AMS 4 (1953), 502-506 (from memory).
 * Error: the place is found to within `within`; each step shortens the bracket to 0.618.
 */
export function goldenSection(f: (x: number) => number, from: number, to: number, within: number): number {
  const share = (Math.sqrt(5) - 1) / 2;
  let low = from;
  let high = to;
  let left = high - share * (high - low);
  let right = low + share * (high - low);
  let atLeft = f(left);
  let atRight = f(right);
  while (high - low > within) {
    if (atLeft <= atRight) {
      high = right;
      right = left;
      atRight = atLeft;
      left = high - share * (high - low);
      atLeft = f(left);
    } else {
      low = left;
      left = right;
      atLeft = atRight;
      right = low + share * (high - low);
      atRight = f(right);
    }
  }
  return (low + high) / 2;
}
