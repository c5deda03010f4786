/**
 * The traditional wide table of offsets: stations across, a line of the hull a row. Half-breadths are given on waterlines, heights on
 * buttocks, both on the sheer, the rabbet or keel, and on knuckles; a blank where a line does not meet a station.
 *
 *     line,               0,      1,      2          stations by name; without a row `x` the headings themselves are their places
 *     x,                  0-0-0,  2-0-0,  4-0-0
 *     Half-breadths
 *     Sheer,              0-3-4,  1-10-2, 2-8-1+
 *     WL 2-0-0,           0-2-7,  1-7-3,  2-6-0      a waterline by its height, a buttock by its distance out
 *     Rabbet,             0-1-4,  0-1-4,  0-1-4
 *     Heights
 *     Sheer,              ...
 *     Buttock 1-0-0,      ,       1-5-2,  0-11-6+
 *     Rabbet,             ...
 *
 * `Half-breadth` or `Height` may also stand in the row itself ("Sheer height"). A keel without half-breadth lies on the middle line; where
 * there is a rabbet, a section begins there and a keel says nothing of the planking.
 */
import { CsvError, parse } from 'csv-parse/browser/esm/sync';
import type { Cell, OffsetPoint } from '../core/hull/offsets.ts';
import { roundingOfMm } from '../core/hull/rounding.ts';
import type { DraftStation } from './draftStation.ts';
import { type HullLine, hullLine, type Kind, kindIn } from './hullLine.ts';
import { MixedUnits } from './mixedUnits.ts';
import { readLengthCell, type Units } from './parseLength.ts';
import type { ProblemList } from './problemList.ts';
import { TABLE_LIMIT_CHARS, TABLE_LIMIT_ROWS } from './readTable.ts';
import { quote, showName } from './showFound.ts';
import { sectionOf } from './wideSection.ts';

/** A table whose heading names none of the long form's columns x, y and z, but more than two columns. */
export function isWideTable(text: string): boolean {
  const heading = text.split(/\r\n|\n|\r/).find((line) => line.trim() !== '' && !line.trimStart().startsWith('#'));
  const names = (heading ?? '')
    .replace(/^\uFEFF/, '')
    .split(',')
    .map((name) => name.trim().toLowerCase());
  return (
    names.length > 2 &&
    (/^(lines?|(table of )?offsets|stations?|)$/.test(names[0] ?? '') || kindIn(names[0] ?? '') !== undefined) &&
    !names.some((name) => ['x', 'y', 'z'].includes(name))
  );
}

interface WideRow {
  readonly row: number;
  readonly cells: readonly string[];
}

/** What a row gives of its line: half-breadths or heights, by station. */
interface LineRow {
  readonly line: HullLine;
  readonly kind: Kind;
  readonly cells: readonly ((Cell & { readonly mm: number }) | undefined)[];
}

export function readWideOffsets(
  file: string,
  text: string,
  units: Units,
  problems: ProblemList,
): readonly DraftStation[] {
  const name = showName(file);
  const rows = splitRows(name, text, problems);
  const [heading, ...body] = rows;
  if (heading === undefined) return [];
  const labels = heading.cells.slice(1).map((label, i) => (label === '' ? `${i + 1}` : label));
  const read = new WideReading(name, labels, units, problems, kindIn(heading.cells[0] ?? ''));
  for (const row of body) read.take(row);
  read.mixed.tell();
  const xs = read.xs ?? placesInHeading(name, labels, units, problems);
  const hasRabbet = read.lines.some(({ line }) => line.kind === 'rabbet');
  const lines = read.lines.filter(({ line }) => !(hasRabbet && line.kind === 'keel'));
  wantEnds(lines, labels, name, problems);
  if (problems.count > 0) return [];
  const drafts = labels.map((label, i) => {
    const x = xs?.[i];
    return {
      label,
      xMm: x?.mm ?? Number.NaN,
      xCell: x ?? { row: 0, column: label, text: '' },
      points: pointsOn(i, lines, name, label, problems),
    };
  });
  const roundingMm = roundingOfMm({ file, stations: drafts });
  return drafts.map((draft) => ({ ...draft, points: sectionOf(draft.points, roundingMm) }));
}

class WideReading {
  readonly mixed: MixedUnits;
  readonly lines: LineRow[] = [];
  xs: readonly ((Cell & { readonly mm: number }) | undefined)[] | undefined;
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

  take({ row, cells }: WideRow): void {
    const [title = '', ...values] = cells;
    const at = { file: this.#file, row, column: 'line' };
    const isBare = values.every((value) => value === '');
    if (isBare && kindIn(title) !== undefined) {
      this.#block = kindIn(title);
      return;
    }
    if (values.length > this.#labels.length && values.slice(this.#labels.length).some((value) => value !== '')) {
      this.#problems.add(
        'too-many',
        { file: this.#file, row },
        `${values.length} figures`,
        `at most ${this.#labels.length}, one for each station`,
      );
      return;
    }
    const read = this.#labels.map((column, i) => this.#cell(row, column, values[i] ?? ''));
    if (/^(x|place|station places?|distance|at)$/i.test(title.trim())) {
      this.xs = read;
      this.#labels.forEach((column, i) => {
        if ((values[i] ?? '') === '')
          this.#problems.add(
            'missing',
            { file: this.#file, row, column },
            'an empty cell',
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

  #cell(row: number, column: string, text: string): (Cell & { readonly mm: number }) | undefined {
    if (/^(-+|–|—|\.+|)$/.test(text)) return undefined;
    const reading = readLengthCell(text, this.#units);
    if (reading.mm === undefined) {
      this.#problems.add(reading.code, { file: this.#file, row, column }, quote(text), reading.wanted);
      return undefined;
    }
    return { row, column, text, mm: reading.mm };
  }
}

/** Stations closer than this are no stations of a boat: their headings are names and not places, as are whole numbers in a row. */
const CLOSEST_MM = 100;
const areNumbered = (labels: readonly string[]): boolean =>
  labels.every((label, i) => /^\d+$/.test(label) && Number(label) === Number(labels[0]) + i);

/** Where there is no row of places, the headings of the stations are their places, if they can be. */
function placesInHeading(
  file: string,
  labels: readonly string[],
  units: Units,
  problems: ProblemList,
): WideReading['xs'] {
  const places = labels.map((column) => ({ row: 0, column, text: column, reading: readLengthCell(column, units) }));
  const read = places.map(({ row, column, text, reading }) => ({ row, column, text, mm: reading.mm ?? Number.NaN }));
  const areFar = read.every(({ mm }, i) => i === 0 || Math.abs(mm - (read[i - 1]?.mm ?? Number.NaN)) >= CLOSEST_MM);
  if (areFar && !areNumbered(labels) && read.every(({ mm }) => !Number.isNaN(mm))) return read;
  problems.add(
    'missing',
    { file },
    'no row that says where the stations stand',
    'a row "x" with the place of each station, growing aft',
  );
  return undefined;
}

/** Sections answer each other from end to end: a sheer, rabbet or keel that some stations have, all of them have. */
function wantEnds(lines: readonly LineRow[], labels: readonly string[], file: string, problems: ProblemList): void {
  for (const { line, kind, cells } of lines) {
    if (!['sheer', 'rabbet', 'keel'].includes(line.kind)) continue;
    const known = cells.find((cell) => cell !== undefined);
    cells.forEach((cell, i) => {
      if (cell !== undefined || known === undefined) return;
      const wanted = `the ${kind} of the ${line.name}, as on station ${known.column}: sections are joined from end to end`;
      problems.add('missing', { file, row: known.row, column: labels[i] ?? '' }, 'an empty cell', wanted);
    });
  }
}

function pointsOn(
  i: number,
  lines: readonly LineRow[],
  file: string,
  station: string,
  problems: ProblemList,
): readonly (OffsetPoint & { readonly line: HullLine })[] {
  const names = [...new Set(lines.map(({ line }) => line.name))];
  return names.flatMap((name) => {
    const rows = lines.filter(({ line }) => line.name === name);
    const line = rows[0]?.line;
    const [breadth, height] = (['half-breadth', 'height'] as const).map(
      (kind) => rows.find((row) => row.kind === kind)?.cells[i],
    );
    if (line === undefined || (breadth === undefined && height === undefined)) return [];
    const isKnuckle = line.kind === 'knuckle';
    if (line.kind === 'waterline' || line.kind === 'buttock') {
      const cell = breadth ?? height;
      if (cell === undefined) return [];
      const [yMm, zMm] = line.kind === 'waterline' ? [cell.mm, line.levelMm] : [line.levelMm, cell.mm];
      return [{ yMm, zMm, isKnuckle, yCell: cell, zCell: cell, line }];
    }
    if (height !== undefined && (breadth !== undefined || line.kind === 'keel'))
      return [{ yMm: breadth?.mm ?? 0, zMm: height.mm, isKnuckle, yCell: breadth ?? height, zCell: height, line }];
    const { row, column } = breadth ?? height ?? { row: 0, column: station };
    problems.add(
      'missing',
      { file, row, column },
      `only the ${breadth === undefined ? 'height' : 'half-breadth'} of ${line.name} on station ${station}`,
      'both its height and its half-breadth there, or neither',
    );
    return [];
  });
}

function splitRows(file: string, text: string, problems: ProblemList): readonly WideRow[] {
  if (text.length > TABLE_LIMIT_CHARS) {
    problems.add(
      'too-large',
      { file },
      `${text.length} characters`,
      `a table of at most ${TABLE_LIMIT_CHARS} characters`,
    );
    return [];
  }
  try {
    const records = parse(text, {
      bom: true,
      comment: '#',
      comment_no_infix: true,
      record_delimiter: ['\r\n', '\n', '\r'],
      relax_column_count: true,
      relax_quotes: true,
      skip_empty_lines: true,
      skip_records_with_empty_values: true,
      to: TABLE_LIMIT_ROWS + 1,
      trim: true,
    }) as unknown as readonly (readonly string[])[];
    return records.map((cells, row) => ({ row, cells }));
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    problems.add('not-csv', { file }, quote(error.message, 120), 'a table of cells parted by commas');
    return [];
  }
}
