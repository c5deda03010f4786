/**
 * Symmetric positive definite matrices of five bands: factored (L D L'), solved, and the five central bands of the inverse,
 * all in O(n).
 * Source: band Cholesky as in Golub and Van Loan, Matrix Computations, section 4.3 (from memory); the bands of the inverse
 * by the backward recursion of Hutchinson and de Hoog, "Smoothing noisy data with spline functions", Numerische
 * Mathematik 47 (1985), 99-106 (from memory; derived again from B^-1 L = L'^-1 D^-1, whose part on and above the
 * diagonal is known).
 * Error: backward stable, so relative errors up to about the condition number x 1e-16.
 */
export interface FiveBands {
  /** The diagonal. */
  readonly main: Float64Array;
  /** `first[i]` stands at (i, i + 1), `second[i]` at (i, i + 2); what would lie outside is not read. */
  readonly first: Float64Array;
  readonly second: Float64Array;
}

interface Factored {
  readonly pivot: Float64Array;
  /** `below1[i]` is L(i + 1, i), `below2[i]` is L(i + 2, i); zero where outside. */
  readonly below1: Float64Array;
  readonly below2: Float64Array;
}

export function factor({ main, first, second }: FiveBands): Factored {
  const n = main.length;
  const pivot = new Float64Array(n);
  const below1 = new Float64Array(n);
  const below2 = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const one = i > 0 ? below1[i - 1]! : 0;
    const two = i > 1 ? below2[i - 2]! : 0;
    const d = main[i]! - (i > 0 ? one * one * pivot[i - 1]! : 0) - (i > 1 ? two * two * pivot[i - 2]! : 0);
    if (!(d > 0)) throw new Error(`not positive definite: pivot ${i} is ${d}`);
    pivot[i] = d;
    if (i + 1 < n) below1[i] = (first[i]! - (i > 0 ? one * below2[i - 1]! * pivot[i - 1]! : 0)) / d;
    if (i + 2 < n) below2[i] = second[i]! / d;
  }
  return { pivot, below1, below2 };
}

export function solve({ pivot, below1, below2 }: Factored, right: ArrayLike<number>): Float64Array {
  const n = pivot.length;
  const z = Float64Array.from(right);
  for (let i = 0; i < n; i++) {
    if (i > 0) z[i]! -= below1[i - 1]! * z[i - 1]!;
    if (i > 1) z[i]! -= below2[i - 2]! * z[i - 2]!;
  }
  for (let i = 0; i < n; i++) z[i]! /= pivot[i]!;
  for (let i = n - 2; i >= 0; i--) {
    z[i]! -= below1[i]! * z[i + 1]!;
    if (i + 2 < n) z[i]! -= below2[i]! * z[i + 2]!;
  }
  return z;
}

/** The five central bands of the inverse of what was factored. */
export function inverseBands({ pivot, below1, below2 }: Factored): FiveBands {
  const n = pivot.length;
  const main = new Float64Array(n);
  const first = new Float64Array(n);
  const second = new Float64Array(n);
  for (let i = n - 1; i >= 0; i--) {
    const l1 = below1[i]!;
    const l2 = below2[i]!;
    if (i + 1 < n) first[i] = -l1 * main[i + 1]! - l2 * first[i + 1]!;
    if (i + 2 < n) second[i] = -l1 * first[i + 1]! - l2 * main[i + 2]!;
    main[i] = 1 / pivot[i]! - l1 * first[i]! - l2 * second[i]!;
  }
  return { main, first, second };
}
