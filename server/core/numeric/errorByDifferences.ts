/**
 * How large the error of values over uneven places is, told by themselves: shape is smooth, so its sixth divided differences are small, and
 * what is left of them is error. By the median, so that the places where shape is not smooth do not count.
 * Source: differences as a test of errors, Whittaker and Robinson, The Calculus of Observations, 1924, section 32 (from memory); the
 * spread of a difference of independent values is the root of its squared weights (derived).
 * Error: of 21 places and 24 lines some 20 %; shape adds to it (hulls of 21 exact stations: 0.005 mm at most, measured).
 */
import { sdByMedian } from './median.ts';

const ORDER = 6;

/**
 * The rms error of `u` and `v` (places x lines, place after place), as vectors, of which only the part along (`nu`, `nv`) counts.
 * At least seven places.
 */
export function errorByDifferences(
  x: ArrayLike<number>,
  lines: number,
  fields: { readonly u: Float64Array; readonly v: Float64Array; readonly nu: Float64Array; readonly nv: Float64Array },
): number {
  const { u, v, nu, nv } = fields;
  const sizes: number[] = [];
  for (let i = 0; i + ORDER < x.length; i++) {
    const weights = differenceWeights(x, i);
    const middle = (i + ORDER / 2) * lines;
    for (let k = 0; k < lines; k++) {
      let [du, dv] = [0, 0];
      weights.forEach((weight, j) => {
        du += weight * u[(i + j) * lines + k]!;
        dv += weight * v[(i + j) * lines + k]!;
      });
      sizes.push(Math.abs(du * nu[middle + k]! + dv * nv[middle + k]!));
    }
  }
  return sdByMedian(sizes);
}

/** Of the divided difference over the places from `from`, made so long that independent errors come through as large as they are. */
function differenceWeights(x: ArrayLike<number>, from: number): readonly number[] {
  const span = x[from + ORDER]! - x[from]!;
  const weights = Array.from({ length: ORDER + 1 }, (_, j) => {
    let product = 1;
    for (let m = 0; m <= ORDER; m++) if (m !== j) product *= (x[from + j]! - x[from + m]!) / span;
    return 1 / product;
  });
  const length = Math.hypot(...weights);
  return weights.map((weight) => weight / length);
}
