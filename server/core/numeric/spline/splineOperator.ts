/**
 * The cubic spline as what it is, a linear map: for given knots, the matrix that takes values at the knots to the second
 * derivatives there. One matrix then serves every line that is lofted over the same knots.
 * Source: cubicSpline.ts, asked for each unit vector; linear in its values (derived).
 * Error: that of cubicSpline, times the sum over a row.
 */
import { cubicSpline } from './cubicSpline.ts';

/** Row after row: second[i] = sum over j of operator[i * n + j] * value[j]. `x` strictly rising, at least two. */
export function splineOperator(x: ArrayLike<number>): Float64Array {
  const n = x.length;
  const operator = new Float64Array(n * n);
  const unit = new Float64Array(n);
  for (let j = 0; j < n; j++) {
    unit[j] = 1;
    const curve = cubicSpline(x, unit);
    unit[j] = 0;
    for (let i = 0; i < n; i++) operator[i * n + j] = curve.secondAt(x[i]!);
  }
  return operator;
}
