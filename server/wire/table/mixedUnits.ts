/** A table of offsets is in one measure: a cell in the other one is a slip, and the shape made of it would look almost right. */
import type { Units } from '../length/parseLength.ts';
import type { ProblemList } from '../problem/problemList.ts';
import { quote, showName } from '../problem/showFound.ts';

interface Noted {
  readonly row: number;
  readonly column: string;
  readonly text: string;
}

export class MixedUnits {
  readonly #noted = { metric: [] as Noted[], imperial: [] as Noted[] };
  readonly #file: string;
  readonly #units: Units;
  readonly #problems: ProblemList;

  constructor(file: string, units: Units, problems: ProblemList) {
    this.#file = showName(file);
    this.#units = units;
    this.#problems = problems;
  }

  note(at: { readonly row: number; readonly column: string }, text: string): void {
    if (text === '' || Number(text) === 0) return;
    this.#noted[measureOf(text, this.#units)].push({ ...at, text });
  }

  /** The cells of the rarer measure are told. */
  tell(): void {
    const { metric, imperial } = this.#noted;
    if (metric.length === 0 || imperial.length === 0) return;
    const [rare, common] = metric.length < imperial.length ? [metric, 'feet and inches'] : [imperial, 'millimetres'];
    for (const { row, column, text } of rare)
      this.#problems.add(
        'mixed-units',
        { file: this.#file, row, column },
        quote(text),
        `a length in ${common} as most of this table has: one table, one measure`,
      );
  }
}

function measureOf(text: string, units: Units): 'metric' | 'imperial' {
  if (/(mm|cm|m)\s*$/i.test(text)) return 'metric';
  if (/\d\s*[-\u2010-\u2015\u2212]\s*\d+\s*[-\u2010-\u2015\u2212]\s*\d|["'\u2032\u2033]|in|ft|feet|foot/i.test(text))
    return 'imperial';
  return units === 'mm' ? 'metric' : 'imperial';
}
