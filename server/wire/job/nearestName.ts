/** The known name that was probably meant, undefined where none is near. */
export function nearestName(written: string, known: readonly string[]): string | undefined {
  if (written.length > LONGEST_CHARS) return undefined;
  const meant = plain(written);
  let nearest: { readonly name: string; readonly edits: number } | undefined;
  for (const name of known) {
    const edits = editsBetween(meant, plain(name));
    const fewEdits = name.length < 3 ? 0 : Math.ceil(name.length / 3);
    if (edits <= fewEdits && (nearest === undefined || edits < nearest.edits)) nearest = { name, edits };
  }
  return nearest?.name;
}

const LONGEST_CHARS = 40;

/** Letters and digits only, so that `moulded_face` and `girth (mm)` are near to `mouldedFace` and `girth`. */
const plain = (name: string): string =>
  name
    .replace(/\(.*\)/, '')
    .replace(/[^\p{L}\p{N}]/gu, '')
    .toLowerCase();

/** Levenshtein's distance: how many letters must be put in, taken out or changed (Wagner and Fischer 1974, one row kept). */
function editsBetween(from: string, to: string): number {
  let row = Array.from({ length: to.length + 1 }, (_, column) => column);
  for (const [index, letter] of [...from].entries()) {
    const next = [index + 1];
    for (let column = 1; column <= to.length; column++) {
      const change = (row[column - 1] ?? 0) + (letter === to[column - 1] ? 0 : 1);
      next.push(Math.min(change, (row[column] ?? 0) + 1, (next[column - 1] ?? 0) + 1));
    }
    row = next;
  }
  return row[to.length] ?? 0;
}
