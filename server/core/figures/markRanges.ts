/** Several marks in words. */
interface Numbered {
  readonly mark: number;
}

/** "mark 3", or "marks 3 to 7", or "marks 3, 9 and 2 others". */
export function marksText(marks: readonly Numbered[]): string {
  const numbers = marks.map(({ mark }) => mark);
  const [first, second] = numbers;
  const last = numbers.at(-1);
  if (numbers.length === 1) return `mark ${first}`;
  if (last !== undefined && first !== undefined && last - first === numbers.length - 1)
    return `marks ${first} to ${last}`;
  if (numbers.length === 2) return `marks ${first} and ${second}`;
  return `marks ${first}, ${second} and ${numbers.length - 2} other${numbers.length === 3 ? '' : 's'}`;
}

/** Every one of them, rising, those that follow each other as a range: "marks 3 to 7, 9 and 12 to 14". */
export function everyMarkText(marks: readonly Numbered[]): string {
  const runs: [from: number, to: number][] = [];
  for (const { mark } of marks) {
    const run = runs.at(-1);
    if (run !== undefined && run[1] === mark - 1) run[1] = mark;
    else runs.push([mark, mark]);
  }
  const parts = runs.map(([from, to]) => (from === to ? `${from}` : `${from} to ${to}`));
  const last = parts.pop() ?? '';
  return `mark${marks.length === 1 ? '' : 's'} ${parts.length === 0 ? last : `${parts.join(', ')} and ${last}`}`;
}
