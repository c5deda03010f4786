/** Signs and columns of a plan as text. */

/** With a plus where it is above nought. */
export function signed(deg: number, decimals: number): string {
  const figure = signless(deg.toFixed(decimals));
  return Number(figure) > 0 ? `+${figure}` : figure;
}

/** No minus before a nought. */
const signless = (figure: string): string => (Number(figure) === 0 ? figure.replace('-', '') : figure);

/** Figures stand under each other, so every column is set to the right. */
export function columns(rows: readonly (readonly string[])[]): readonly string[] {
  const wide = (rows[0] ?? []).map((_, column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)));
  return rows.map((row) => row.map((cell, column) => cell.padStart(wide[column] ?? 0)).join('  '));
}
