/** A table of the job (CSV, RFC 4180, `#` starts a comment line), taken apart into cells by the name of their column. */
import { CsvError, parse } from 'csv-parse/browser/esm/sync';
import type { ProblemCode, ProblemPlace } from '../../core/errors.ts';
import { nearestName } from '../job/nearestName.ts';
import { isTooFine, WANTED_COARSER } from '../length/magnitude.ts';
import { type BareUnits, type LengthReading, readLengthCell } from '../length/parseLength.ts';
import { type Readings, readBevel, wantedOf } from '../length/readBevel.ts';
import { hiddenInTable, WITHOUT_HIDDEN } from '../problem/hidden.ts';
import type { ProblemList } from '../problem/problemList.ts';
import { quote, showName } from '../problem/showFound.ts';

export const TABLE_LIMIT_CHARS = 1_000_000;
export const TABLE_LIMIT_ROWS = 5_000;

interface Columns {
  readonly required: readonly string[];
  readonly optional: readonly string[];
}

/** One data row; it reads its own cells and notes what is wrong with them. */
export class TableRow {
  /** Counted from 1, comments, blank lines and the heading left out. */
  readonly row: number;
  readonly #line: number;
  readonly #file: string;
  readonly #cells: ReadonlyMap<string, string>;
  readonly #problems: ProblemList;

  constructor(file: string, row: number, line: number, cells: ReadonlyMap<string, string>, problems: ProblemList) {
    this.row = row;
    this.#line = line;
    this.#file = file;
    this.#cells = cells;
    this.#problems = problems;
  }

  text(column: string): string {
    return this.#cells.get(column) ?? '';
  }

  /** In mm; undefined where the cell holds no length, which is then noted. */
  length(column: string, units: BareUnits): number | undefined {
    const cell = this.text(column);
    if (cell === '')
      return this.#missing(column, units === 'unsaid' ? 'a length with its unit' : `a length in ${units}`);
    const reading: LengthReading = readLengthCell(cell, units);
    if (reading.mm === undefined) this.refuse(reading.code, column, reading.wanted);
    return reading.mm;
  }

  /** In degrees off square; undefined where the cell holds no bevel, which is then noted. */
  bevel(column: string, units: BareUnits, readings: Readings = 'off square'): number | undefined {
    const cell = this.text(column);
    if (cell === '') return this.#missing(column, wantedOf(cell, readings));
    const reading = readBevel(cell, units, readings);
    if (reading.deg === undefined) this.refuse(reading.code, column, reading.wanted);
    return reading.deg;
  }

  /** A plain decimal number; undefined where the cell holds none, which is then noted. */
  number(column: string, wanted: string): number | undefined {
    const cell = this.text(column);
    if (cell === '') return this.#missing(column, wanted);
    if (/^[+-]?(\d+(\.\d*)?|\.\d+)(e[+-]?\d{1,3})?$/i.test(cell) && Number.isFinite(Number(cell))) {
      if (!isTooFine(Number(cell))) return Number(cell);
      this.refuse('out-of-range', column, `${wanted}: ${WANTED_COARSER}`);
      return undefined;
    }
    this.refuse('wrong-type', column, /^[+-]?\d*,\d+$/.test(cell) ? `${wanted}, with a decimal point` : wanted);
    return undefined;
  }

  refuse(code: ProblemCode, column: string, wanted: string): void {
    this.#problems.add(code, this.#at(column), quote(this.text(column)), wanted);
  }

  #missing(column: string, wanted: string): undefined {
    this.#problems.add('missing', this.#at(column), 'an empty cell', wanted);
  }

  #at(column: string): ProblemPlace {
    return { file: this.#file, row: this.row, line: this.#line, column };
  }
}

/** The data rows of a table. Whatever is wrong goes to `problems`; rows that can be read are given all the same. */
export function readTable(file: string, text: string, columns: Columns, problems: ProblemList): readonly TableRow[] {
  const name = showName(file);
  if (!isReadable(name, text, problems)) return [];
  const [heading, ...records] = splitRecords(name, text, problems) ?? [];
  if (heading === undefined) {
    if (problems.count === 0 || text.trim() === '')
      problems.add('missing', { file: name }, 'no heading', `a heading row: ${columns.required.join(',')}`);
    return [];
  }
  const names = readHeading(name, heading, columns, problems);
  return names === undefined ? [] : readRows(name, names, records, problems);
}

/** A table that is not too long, and in which everything is seen; what is wrong otherwise goes to `problems`. */
export function isReadable(file: string, text: string, problems: ProblemList): boolean {
  if (text.length > TABLE_LIMIT_CHARS) {
    const wanted = `a table of at most ${TABLE_LIMIT_CHARS} characters`;
    problems.add('too-large', { file }, `${text.length} characters`, wanted);
    return false;
  }
  const hidden = hiddenInTable(text);
  if (hidden === undefined) return true;
  problems.add('not-csv', { file, line: hidden.line }, quote(hidden.text), `the same line ${WITHOUT_HIDDEN}`);
  return false;
}

interface CsvRecord {
  readonly cells: readonly string[];
  readonly line: number;
}

function splitRecords(file: string, text: string, problems: ProblemList): readonly CsvRecord[] | undefined {
  try {
    const records = parse(text, {
      bom: true,
      comment: '#',
      comment_no_infix: true,
      info: true,
      record_delimiter: ['\r\n', '\n', '\r'],
      relax_column_count: true,
      // An inch sign inside a cell (2 3/8") is a sign, not a quotation mark.
      relax_quotes: true,
      skip_empty_lines: true,
      skip_records_with_empty_values: true,
      // The heading, the rows, and one more to tell that there are too many.
      to: TABLE_LIMIT_ROWS + 2,
      trim: true,
    }) as unknown as readonly { readonly record: readonly string[]; readonly info: { readonly lines: number } }[];
    return records.map(({ record, info }) => ({ cells: record, line: info.lines }));
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const lines: unknown = error.lines;
    const at = typeof lines === 'number' ? { file, line: lines } : { file };
    problems.add(
      'not-csv',
      at,
      error.code === 'CSV_QUOTE_NOT_CLOSED' ? 'a quotation mark that is never closed' : quote(error.message, 120),
      'a table of cells parted by commas, in quotation marks where a cell holds a comma or a line break',
    );
    return undefined;
  }
}

/** The name of each column, '' for one without a heading; undefined if the rows cannot be understood with this heading. */
function readHeading(
  file: string,
  { cells, line }: CsvRecord,
  { required, optional }: Columns,
  problems: ProblemList,
): readonly string[] | undefined {
  const before = problems.count;
  const known = [...required, ...optional];
  const heading = `a heading row: ${required.join(',')}`;
  const shown = `the heading ${quote(cells.join(','))}`;
  const parted = cells.length === 1 ? /[;\t]/.exec(cells[0] ?? '')?.[0] : undefined;
  if (parted !== undefined) {
    const found = `${shown}, parted by ${parted === ';' ? 'semicolons' : 'tabs'}`;
    problems.add('missing', { file, line }, found, `cells parted by commas, with decimal points, under ${heading}`);
    return undefined;
  }
  const names = cells.map((cell) => cell.toLowerCase());
  if (!names.some((name) => known.includes(name) || nearestName(name, known) !== undefined)) {
    problems.add('missing', { file, line }, shown, heading);
    return undefined;
  }
  const meant = new Set<string>();
  for (const [index, name] of names.entries()) {
    const at = { file, line, column: showName(cells[index] ?? name) };
    if (name === '') continue;
    if (names.indexOf(name) !== index) problems.add('unknown-field', at, `a second ${quote(name)}`, 'one such column');
    if (known.includes(name)) continue;
    const near = nearestName(name, known);
    if (near !== undefined) meant.add(near);
    const wanted = near === undefined ? `only the columns ${known.join(', ')}` : `"${near}", the nearest known column`;
    problems.add('unknown-field', at, quote(name), wanted);
  }
  for (const column of required)
    if (!names.includes(column) && !meant.has(column)) problems.add('missing', { file, line, column }, shown, heading);
  return problems.count === before ? names : undefined;
}

function readRows(
  file: string,
  names: readonly string[],
  records: readonly CsvRecord[],
  problems: ProblemList,
): readonly TableRow[] {
  if (records.length > TABLE_LIMIT_ROWS) {
    problems.add('too-many', { file }, `more than ${TABLE_LIMIT_ROWS} rows`, `at most ${TABLE_LIMIT_ROWS} rows`);
    return [];
  }
  return records.map(({ cells, line }, index) => {
    const filled = cells.findLastIndex((cell) => cell !== '') + 1;
    if (filled > names.length || cells.some((cell, column) => cell !== '' && names[column] === ''))
      problems.add(
        'too-many',
        { file, row: index + 1, line },
        `${filled} cells: ${quote(cells.slice(0, filled).join(','))}`,
        `a cell for each of ${names.filter((name) => name !== '').join(', ')}, with decimal points and no decimal commas`,
      );
    const byName = new Map(names.map((name, column) => [name, cells[column] ?? ''] as const));
    return new TableRow(file, index + 1, line, byName, problems);
  });
}

/** Notes a table that has rows, but too few; `rows` may be short because the table itself was refused. */
export function wantRows(
  file: string,
  rows: readonly TableRow[],
  atLeast: number,
  problemsBefore: number,
  problems: ProblemList,
): void {
  if (rows.length < atLeast && problems.count === problemsBefore)
    problems.add(
      'too-few',
      { file: showName(file) },
      `${rows.length} row${rows.length === 1 ? '' : 's'}`,
      `at least ${atLeast} rows`,
    );
}
