/**
 * Weighted linear least squares for a handful of unknowns, by the normal equations: (A'WA) v = A'W b, solved by Gauss and Jordan with
 * pivoting; the inverse is the covariance of the unknowns for a variance of 1. Fit for three well-scaled unknowns, not for many.
 * Source: any text on least squares, e.g. Press et al., Numerical Recipes, 15.4 (from memory).
 */
import { rowAt } from '../rowAt.ts';

export function fitted(
  design: readonly (readonly number[])[],
  values: readonly number[],
  weights: readonly number[],
): {
  readonly values: readonly number[];
  /** Infinite where the rows do not tell the unknowns apart. */
  readonly covariance: readonly (readonly number[])[];
  readonly leftSquares: number;
} {
  const unknowns = rowAt(design, 0).length;
  const each = Array.from({ length: unknowns }, (_, i) => i);
  const sum = (of: (row: number) => number): number =>
    values.reduce((total, _, row) => total + rowAt(weights, row) * of(row), 0);
  const at = (row: number, column: number): number => rowAt(rowAt(design, row), column);
  const normal = each.map((i) => each.map((j) => sum((row) => at(row, i) * at(row, j))));
  const right = each.map((i) => sum((row) => at(row, i) * rowAt(values, row)));
  const covariance = inverse(normal);
  const found = each.map((i) => each.reduce((total, j) => total + rowAt(rowAt(covariance, i), j) * rowAt(right, j), 0));
  const solved = found.every(Number.isFinite) ? found : each.map(() => 0);
  const left = (row: number): number =>
    rowAt(values, row) - each.reduce((total, i) => total + at(row, i) * rowAt(solved, i), 0);
  return { values: solved, covariance, leftSquares: sum((row) => left(row) ** 2) };
}

const SINGULAR = 1e-12;

function inverse(matrix: readonly (readonly number[])[]): readonly (readonly number[])[] {
  const size = matrix.length;
  const rows = matrix.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))]);
  const scale = Math.max(...matrix.flat().map(Math.abs), 0);
  for (let column = 0; column < size; column += 1) {
    let pivot = column;
    for (let row = column; row < size; row += 1)
      if (Math.abs(rowAt(rowAt(rows, row), column)) > Math.abs(rowAt(rowAt(rows, pivot), column))) pivot = row;
    const value = rowAt(rowAt(rows, pivot), column);
    if (!(Math.abs(value) > SINGULAR * scale)) return matrix.map((row) => row.map(() => Number.POSITIVE_INFINITY));
    [rows[column], rows[pivot]] = [rows[pivot] ?? [], rows[column] ?? []];
    const top = (rows[column] ?? []).map((cell) => cell / value);
    rows[column] = top;
    for (let row = 0; row < size; row += 1) {
      const share = rowAt(rowAt(rows, row), column);
      if (row !== column && share !== 0) rows[row] = (rows[row] ?? []).map((cell, i) => cell - share * rowAt(top, i));
    }
  }
  return rows.map((row) => row.slice(size));
}
