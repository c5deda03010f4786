/**
 * Smoothing of values on uneven places by a penalty on their third divided differences: what is kept is any parabola, so the ends
 * are not forced straight as a cubic smoothing spline forces them. As a linear map: one matrix serves every line over the same places.
 * Source: Whittaker, "On a new method of graduation", Proc. Edinburgh Math. Soc. 41 (1923), 63-75, with divided differences for uneven
 * places (from memory; the solution of min |z - y|^2 + smoothing |D z|^2 is (I + smoothing D'D) z = y, derived).
 * Error: Cholesky, backward stable; places are scaled to a mean step of 1, so `smoothing` has no unit.
 */

/** The matrix (row after row) that takes values at `x` (strictly rising) to smoothed values. */
export function thirdDifferenceSmoother(x: ArrayLike<number>, smoothing: number): Float64Array {
  const n = x.length;
  const step = (x[n - 1]! - x[0]!) / (n - 1);
  const system = new Float64Array(n * n);
  for (let i = 0; i < n; i++) system[i * n + i] = 1;
  for (let row = 0; row + 3 < n; row++) {
    const weights = [0, 1, 2, 3].map((j) => {
      let product = 1;
      for (let m = 0; m < 4; m++) if (m !== j) product *= (x[row + j]! - x[row + m]!) / step;
      return 6 / product;
    });
    for (let a = 0; a < 4; a++)
      for (let b = 0; b < 4; b++) system[(row + a) * n + row + b]! += smoothing * weights[a]! * weights[b]!;
  }
  return inverse(system, n);
}

/** Of a symmetric positive definite matrix. */
function inverse(matrix: Float64Array, n: number): Float64Array {
  const lower = cholesky(matrix, n);
  const out = new Float64Array(n * n);
  const z = new Float64Array(n);
  for (let column = 0; column < n; column++) {
    for (let i = 0; i < n; i++) {
      let sum = i === column ? 1 : 0;
      for (let j = 0; j < i; j++) sum -= lower[i * n + j]! * z[j]!;
      z[i] = sum / lower[i * n + i]!;
    }
    for (let i = n - 1; i >= 0; i--) {
      let sum = z[i]!;
      for (let j = i + 1; j < n; j++) sum -= lower[j * n + i]! * out[j * n + column]!;
      out[i * n + column] = sum / lower[i * n + i]!;
    }
  }
  return out;
}

function cholesky(matrix: Float64Array, n: number): Float64Array {
  const lower = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * n + j]!;
      for (let m = 0; m < j; m++) sum -= lower[i * n + m]! * lower[j * n + m]!;
      if (i === j && !(sum > 0)) throw new Error(`not positive definite: pivot ${i} is ${sum}`);
      lower[i * n + j] = i === j ? Math.sqrt(sum) : sum / lower[j * n + j]!;
    }
  return lower;
}
