/** Figures stand under each other in a plan as text, so every column is set to the right. */
export function columns(rows: readonly (readonly string[])[]): readonly string[] {
  const wide = (rows[0] ?? []).map((_, column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)));
  return rows.map((row) => row.map((cell, column) => cell.padStart(wide[column] ?? 0)).join('  '));
}
