/** Reads the rows of a wide table: where the stations stand, and the lines of the hull with their figures. */
import type { Cell } from '../../core/hull/offsets.ts';
import { readLengthCell, type Units } from '../length/parseLength.ts';
import type { ProblemList } from '../problem/problemList.ts';
import { quote } from '../problem/showFound.ts';
import { type HullLine, hullLine, type Kind, kindIn, withoutKind } from './hullLine.ts';
import { MixedUnits } from './mixedUnits.ts';
import type { WideRow } from './wideRows.ts';

type WideCell = Cell & { readonly mm: number };

/** What a row gives of its line: half-breadths or heights, by station. */
export interface LineRow {
  readonly line: HullLine;
  readonly kind: Kind;
  readonly cells: readonly (WideCell | undefined)[];
}

const PLACES =
  /^(?:x|(?:x|station)? ?(?:positions?|places?|distances?)(?: (?:aft|from) .*)?|station x|at|from (?:fp|bow|stem|forward).*)(?: ?\(?(?:mm|cm|m|in|ft)\)?)?$/i;

export class WideReading {
  readonly mixed: MixedUnits;
  readonly lines: LineRow[] = [];
  xs: readonly (WideCell | undefined)[] | undefined;
  readonly #file: string;
  readonly #labels: readonly string[];
  readonly #units: Units;
  readonly #problems: ProblemList;
  #block: Kind | undefined;

  constructor(file: string, labels: readonly string[], units: Units, problems: ProblemList, block: Kind | undefined) {
    this.#file = file;
    this.#block = block;
    this.#labels = labels;
    this.#units = units;
    this.#problems = problems;
    this.mixed = new MixedUnits(file, units, problems);
  }

  take({ row, title, group, cells: values }: WideRow): void {
    const at = { file: this.#file, row, column: 'line' };
    this.#block = kindIn(group) ?? this.#block;
    // A bare row, or the stations' names once more.
    const isHeading = values.every((value, i) => value === '' || value === this.#labels[i]);
    const plain = withoutKind(title);
    if (isHeading && /^(stations?|lines?|)$/i.test(plain)) {
      this.#block = kindIn(title) ?? this.#block;
      return;
    }
    if (values.length > this.#labels.length) {
      this.#problems.add(
        'too-many',
        { file: this.#file, row },
        `${values.length} figures`,
        `at most ${this.#labels.length}, one for each station`,
      );
      return;
    }
    const read = this.#labels.map((column, i) => this.#cell(row, column, values[i] ?? ''));
    if (PLACES.test(title)) {
      this.xs = read;
      this.#labels.forEach((column, i) => {
        const text = values[i] ?? '';
        if (isBlank(text))
          this.#problems.add(
            'missing',
            { file: this.#file, row, column },
            text === '' ? 'an empty cell' : quote(text),
            `where station ${column} stands, a length`,
          );
      });
      return;
    }
    const line = hullLine(title, this.#units);
    if ('wanted' in line) {
      this.#problems.add(line.code, at, quote(title), line.wanted);
      return;
    }
    const kind =
      line.kind === 'waterline' ? 'half-breadth' : line.kind === 'buttock' ? 'height' : (kindIn(title) ?? this.#block);
    if (kind === undefined) {
      this.#problems.add(
        'missing',
        at,
        quote(title),
        `"${title} height" or "${title} half-breadth", or a row "Heights" or "Half-breadths" above it`,
      );
      return;
    }
    if (this.lines.some((other) => other.line.name === line.name && other.kind === kind))
      this.#problems.add('out-of-order', at, `a second row of ${kind}s for ${quote(title)}`, 'each line once');
    for (const cell of read) if (cell !== undefined) this.mixed.note(cell, cell.text);
    this.lines.push({ line, kind, cells: read });
  }

  #cell(row: number, column: string, text: string): WideCell | undefined {
    if (isBlank(text)) return undefined;
    const reading = readLengthCell(text, this.#units);
    if (reading.mm === undefined) {
      this.#problems.add(reading.code, { file: this.#file, row, column }, quote(text), reading.wanted);
      return undefined;
    }
    return { row, column, text, mm: reading.mm };
  }
}

/** Dashes and dots stand for nothing where a line does not meet a station. */
const isBlank = (text: string): boolean => /^(-+|–|—|\.+|)$/.test(text);
