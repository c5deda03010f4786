/**
 * The cubic spline through given points, its third derivative running on over the second and the last but one ("not a knot"):
 * the ends then follow the neighbouring points and are not forced straight. Three points give the parabola, two the line. O(n).
 * Source: de Boor, A Practical Guide to Splines, 1978, chapter IV (from memory); checked against scipy in test/outside.
 * Error: backward stable (the system is diagonally dominant); a smooth function is met to the order of h^4 f''''.
 */
import { type Curve, cubicCurve } from './cubicCurve.ts';

/** `x` strictly rising, at least two; `y` one for each. */
export function cubicSpline(x: ArrayLike<number>, y: ArrayLike<number>): Curve {
  const n = x.length;
  for (let i = 1; i < n; i++) if (!(x[i]! > x[i - 1]!)) throw new Error(`knots must rise: ${x[i]} after ${x[i - 1]}`);
  if (n < 3) return cubicCurve(x, y, [0, 0]);
  const span = new Float64Array(n - 1).map((_, i) => x[i + 1]! - x[i]!);
  const slope = span.map((h, i) => (y[i + 1]! - y[i]!) / h);
  if (n === 3) {
    const second = (2 * (slope[1]! - slope[0]!)) / (span[0]! + span[1]!);
    return cubicCurve(x, y, [second, second, second]);
  }
  return cubicCurve(x, y, secondDerivatives(span, slope));
}

/** Solves for the second derivatives at the inner points; those at the ends follow from running straight on. */
function secondDerivatives(span: Float64Array, slope: Float64Array): Float64Array {
  const m = span.length - 1;
  const below = new Float64Array(m);
  const main = new Float64Array(m);
  const above = new Float64Array(m);
  const right = new Float64Array(m);
  for (let j = 0; j < m; j++) {
    below[j] = span[j]!;
    main[j] = 2 * (span[j]! + span[j + 1]!);
    above[j] = span[j + 1]!;
    right[j] = 6 * (slope[j + 1]! - slope[j]!);
  }
  const atStart = span[0]! / span[1]!;
  main[0]! += span[0]! * (1 + atStart);
  above[0]! -= span[0]! * atStart;
  const atEnd = span[m]! / span[m - 1]!;
  main[m - 1]! += span[m]! * (1 + atEnd);
  below[m - 1]! -= span[m]! * atEnd;

  for (let j = 1; j < m; j++) {
    const share = below[j]! / main[j - 1]!;
    main[j]! -= share * above[j - 1]!;
    right[j]! -= share * right[j - 1]!;
  }
  const second = new Float64Array(m + 2);
  for (let j = m - 1; j >= 0; j--)
    second[j + 1] = (right[j]! - (j + 1 < m ? above[j]! * second[j + 2]! : 0)) / main[j]!;
  second[0] = second[1]! + atStart * (second[1]! - second[2]!);
  second[m + 1] = second[m]! + atEnd * (second[m]! - second[m - 1]!);
  return second;
}
