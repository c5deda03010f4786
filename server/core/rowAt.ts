/** Reads a row by its index, and is loud where there is none: a figure that is missing must never count as 0. */
interface Rows<T> {
  readonly length: number;
  readonly [index: number]: T;
}

/** Throws RangeError where `rows` has no such row. */
export function rowAt<T>(rows: Rows<T>, index: number): T {
  const row = rows[index];
  if (row === undefined) throw new RangeError(`there is no row ${index} among ${rows.length}`);
  return row;
}

/** Throws RangeError where `rows` is empty. */
export const lastRow = <T>(rows: Rows<T>): T => rowAt(rows, rows.length - 1);
