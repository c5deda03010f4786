/**
 * The natural cubic smoothing spline: the curve f that makes  sum w (y - f(x))^2 + smoothing x integral f''^2  least.
 * Smoothing 0 would pass through every row; without end it becomes the weighted straight line. O(n).
 * Source: Reinsch, "Smoothing by spline functions", Numerische Mathematik 10 (1967), 177-183, in the form of Green and
 * Silverman, Nonparametric Regression and Generalized Linear Models, 1994, section 2.3.3; leverages by Hutchinson and
 * de Hoog 1985 (see pentadiagonal.ts); that leaving row i out moves the curve there to y - residual / (1 - leverage) is in
 * Craven and Wahba, Numerische Mathematik 31 (1979) (all from memory; checked against scipy in test/outside and against a
 * dense second computation and real refits in test/core/numeric).
 * Error: the system's condition grows as n^4 towards the straight line. Measured: values within 1e-9 of the data's range up to 150
 * rows, leverages within 1e-8 up to 18; at 5,000 rows a straight line is kept to 1e-8, leverages only to some 1e-5.
 */
import { type Curve, cubicCurve } from './cubicCurve.ts';
import { type FiveBands, factor, inverseBands, solve } from './pentadiagonal.ts';

/** Rows with `x` strictly rising and positive `weight` (one over the variance, up to a common factor). */
export interface WeightedRows {
  readonly x: ArrayLike<number>;
  readonly y: ArrayLike<number>;
  readonly weight: ArrayLike<number>;
}

export interface SmoothingFit {
  readonly smoothing: number;
  readonly curve: Curve;
  readonly fitted: Float64Array;
  /** 1 - leverage of each row, reckoned without the cancellation: what share of its own error a row shows. */
  readonly freedom: Float64Array;
  /** How far each row stands off the curve of the others at the same smoothing: row - curve; 0 where there are only two rows. */
  readonly offOthers: Float64Array;
  /** The sum of the leverages: 2 for a straight line, n for a curve through every row. */
  readonly trace: number;
  /** sum w (y - fitted)^2 */
  readonly residualSquares: number;
}

/** Prepares rows once, to be fitted at many smoothings (in units of weight x x^3, 0 < smoothing < infinity). */
export function smoothingSpline(rows: WeightedRows): (smoothing: number) => SmoothingFit {
  const { x, y, weight } = rows;
  const n = x.length;
  refuseBadRows(rows);
  const span = new Float64Array(n - 1);
  for (let i = 0; i + 1 < n; i++) span[i] = x[i + 1]! - x[i]!;
  const shares = kinkShares(span);
  const stiff = stiffnessBands(span);
  const roughness = roughnessBands(shares, weight);
  const kinks = kinksOf(span, y);

  return (smoothing) => {
    if (!(smoothing > 0 && smoothing < Infinity)) throw new Error(`smoothing must be positive, got ${smoothing}`);
    const factored = factor(sumOf(stiff, roughness, smoothing));
    const bend = solve(factored, kinks);
    const inverse = inverseBands(factored);
    const fitted = new Float64Array(n);
    const freedom = new Float64Array(n);
    const offOthers = new Float64Array(n);
    const second = new Float64Array(n);
    second.set(bend, 1);
    let trace = n;
    let residualSquares = 0;
    for (let i = 0; i < n; i++) {
      const pull = pullAt(shares, bend, i);
      const give = giveAt(shares, inverse, i);
      const residual = (smoothing / weight[i]!) * pull;
      fitted[i] = y[i]! - residual;
      freedom[i] = (smoothing / weight[i]!) * give;
      offOthers[i] = give > 0 ? pull / give : 0;
      trace -= freedom[i]!;
      residualSquares += weight[i]! * residual * residual;
    }
    return { smoothing, curve: cubicCurve(x, fitted, second), fitted, freedom, offOthers, trace, residualSquares };
  };
}

function refuseBadRows({ x, y, weight }: WeightedRows): void {
  if (x.length < 2) throw new Error(`a smoothing spline needs at least 2 rows, got ${x.length}`);
  for (let i = 0; i < x.length; i++) {
    if (i > 0 && !(x[i]! > x[i - 1]!)) throw new Error(`rows must rise: row ${i} is ${x[i]} after ${x[i - 1]}`);
    if (!(weight[i]! > 0 && weight[i]! < Infinity))
      throw new Error(`weight of row ${i} must be positive, got ${weight[i]}`);
    if (!Number.isFinite(y[i]!)) throw new Error(`value of row ${i} is ${y[i]}`);
  }
}

/** Q: how much row i counts in the kinks (changes of slope) at the rows before it, at it and after it. */
interface KinkShares {
  readonly before: Float64Array;
  readonly at: Float64Array;
  readonly after: Float64Array;
}

function kinkShares(span: Float64Array): KinkShares {
  const n = span.length + 1;
  const before = new Float64Array(n);
  const at = new Float64Array(n);
  const after = new Float64Array(n);
  for (let j = 1; j < n - 1; j++) {
    after[j - 1] = 1 / span[j - 1]!;
    at[j] = -1 / span[j - 1]! - 1 / span[j]!;
    before[j + 1] = 1 / span[j]!;
  }
  return { before, at, after };
}

/** Q'y: the change of slope at each inner row. */
function kinksOf(span: Float64Array, y: ArrayLike<number>): Float64Array {
  const kinks = new Float64Array(span.length - 1);
  for (let j = 0; j < kinks.length; j++)
    kinks[j] = (y[j + 2]! - y[j + 1]!) / span[j + 1]! - (y[j + 1]! - y[j]!) / span[j]!;
  return kinks;
}

/** R: integral f''^2 in terms of the second derivatives at the inner rows. */
function stiffnessBands(span: Float64Array): FiveBands {
  const m = span.length - 1;
  const main = new Float64Array(m);
  const first = new Float64Array(m);
  for (let j = 0; j < m; j++) {
    main[j] = (span[j]! + span[j + 1]!) / 3;
    first[j] = span[j + 1]! / 6;
  }
  return { main, first, second: new Float64Array(m) };
}

/** Q' W^-1 Q. */
function roughnessBands({ before, at, after }: KinkShares, weight: ArrayLike<number>): FiveBands {
  const m = before.length - 2;
  const main = new Float64Array(m);
  const first = new Float64Array(m);
  const second = new Float64Array(m);
  for (let j = 0; j < m; j++) {
    main[j] = after[j]! ** 2 / weight[j]! + at[j + 1]! ** 2 / weight[j + 1]! + before[j + 2]! ** 2 / weight[j + 2]!;
    first[j] = (at[j + 1]! * after[j + 1]!) / weight[j + 1]! + (before[j + 2]! * at[j + 2]!) / weight[j + 2]!;
    second[j] = (before[j + 2]! * after[j + 2]!) / weight[j + 2]!;
  }
  return { main, first, second };
}

function sumOf(a: FiveBands, b: FiveBands, times: number): FiveBands {
  const n = a.main.length;
  const main = new Float64Array(n);
  const first = new Float64Array(n);
  const second = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    main[i] = a.main[i]! + times * b.main[i]!;
    first[i] = a.first[i]! + times * b.first[i]!;
    second[i] = a.second[i]! + times * b.second[i]!;
  }
  return { main, first, second };
}

/** Row i of Q times the second derivatives: how hard the curve pulls at the row. */
function pullAt({ before, at, after }: KinkShares, bend: Float64Array, i: number): number {
  const m = bend.length;
  let pull = 0;
  if (i >= 2) pull += before[i]! * bend[i - 2]!;
  if (i >= 1 && i <= m) pull += at[i]! * bend[i - 1]!;
  if (i < m) pull += after[i]! * bend[i]!;
  return pull;
}

/** q' C q for row i of Q, of C the five central bands: all that q touches. How far the curve gives for a unit of pull. */
function giveAt({ before, at, after }: KinkShares, c: FiveBands, i: number): number {
  const m = c.main.length;
  let give = 0;
  if (i >= 2) give += before[i]! ** 2 * c.main[i - 2]!;
  if (i >= 1 && i <= m) give += at[i]! ** 2 * c.main[i - 1]!;
  if (i < m) give += after[i]! ** 2 * c.main[i]!;
  if (i >= 2 && i <= m) give += 2 * before[i]! * at[i]! * c.first[i - 2]!;
  if (i >= 1 && i < m) give += 2 * at[i]! * after[i]! * c.first[i - 1]!;
  if (i >= 2 && i < m) give += 2 * before[i]! * after[i]! * c.second[i - 2]!;
  return give;
}
