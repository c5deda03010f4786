/** Plain dense algebra, the second computation that the banded one is held against. */
export type Matrix = readonly (readonly number[])[];

export const matrix = (rows: number, columns: number, entry: (i: number, j: number) => number): Matrix =>
  Array.from({ length: rows }, (_, i) => Array.from({ length: columns }, (_, j) => entry(i, j)));
export const entry = (m: Matrix, i: number, j: number): number => m[i]?.[j] ?? 0;
export const transposed = (m: Matrix): Matrix => matrix(m[0]?.length ?? 0, m.length, (i, j) => entry(m, j, i));
export const times = (a: Matrix, b: Matrix): Matrix =>
  matrix(a.length, b[0]?.length ?? 0, (i, j) =>
    (a[i] ?? []).reduce((sum, value, k) => sum + value * entry(b, k, j), 0),
  );

/** Gauss and Jordan with the greatest pivot of the column. */
export function inverse(m: Matrix): Matrix {
  const n = m.length;
  const work = m.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))]);
  for (let k = 0; k < n; k++) {
    const below = work.slice(k).map((row) => Math.abs(row[k] ?? 0));
    const p = k + below.indexOf(Math.max(...below));
    [work[k], work[p]] = [work[p] ?? [], work[k] ?? []];
    const lead = entry(work, k, k);
    const pivot = (work[k] ?? []).map((value) => value / lead);
    for (let i = 0; i < n; i++) {
      const share = entry(work, i, k);
      work[i] = i === k ? pivot : (work[i] ?? []).map((value, j) => value - share * (pivot[j] ?? 0));
    }
  }
  return work.map((row) => row.slice(n));
}
