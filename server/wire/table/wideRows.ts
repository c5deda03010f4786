/** The rows of a wide table, taken apart, and whether a table is one. */
import { CsvError, parse } from 'csv-parse/browser/esm/sync';
import type { ProblemList } from '../problem/problemList.ts';
import { quote } from '../problem/showFound.ts';
import { kindIn } from './hullLine.ts';
import { isReadable, TABLE_LIMIT_ROWS } from './readTable.ts';

/** What a person calls a station: a number or a fraction, a letter, a place, an end of the boat. */
const STATION_NAME =
  /^(?:(?:st|sta|stn|station|frame|fr|no|s)\.?\s*)?(?:[-+]?\d[\d./'" -]*(?:mm|cm|m|in|ft)?|[a-z]|fp|ap|bow|stem|stern|transom|midships?)$/i;
const TITLE = /^(lines?|(table of )?offsets|stations?|sta\.?|)$/;

/** A table whose heading names none of the long form's columns x, y and z, but what may be stations. */
export function isWideTable(text: string): boolean {
  const heading = text.split(/\r\n|\n|\r/).find((line) => line.trim() !== '' && !line.trimStart().startsWith('#'));
  const names = (heading ?? '')
    .replace(/^\uFEFF/, '')
    .split(',')
    .map((name) => name.trim().replace(/^"|"$/g, ''));
  const [title = '', ...stations] = names;
  if (stations.length < 2 || names.some((name) => /^[xyz]$/i.test(name))) return false;
  const isTitled = TITLE.test(title.toLowerCase()) || kindIn(title) !== undefined;
  const named = stations.filter((name) => STATION_NAME.test(name)).length;
  return isTitled || named > stations.length / 2;
}

export interface WideRow {
  /** Counted from 1 below the headings. */
  readonly row: number;
  readonly title: string;
  /** What stands before the title where that has two columns, for all rows down to the next: "Heights". */
  readonly group: string;
  /** One for each station, as far as the row goes. */
  readonly cells: readonly string[];
}

interface WideRows {
  readonly title: string;
  readonly stations: readonly string[];
  readonly rows: readonly WideRow[];
}

/** A second column that goes on with the title: "Half-breadths" in the first, "WL 2-0-0" in the second. */
const SECOND_TITLE = /^(lines?|names?|levels?|waterlines?|at|)$/i;

export function wideRows(file: string, text: string, problems: ProblemList): WideRows | undefined {
  const [heading, ...body] = records(file, text, problems);
  if (heading === undefined) return undefined;
  const filled = heading.findLastIndex((cell) => cell !== '') + 1;
  const hasSecond = filled > 2 && SECOND_TITLE.test(heading[1] ?? '');
  const first = hasSecond ? 2 : 1;
  return {
    title: heading.slice(0, first).join(' ').trim(),
    stations: heading.slice(first, filled).map((label, i) => (label === '' ? `${i + 1}` : label)),
    rows: body.map((cells, i) => ({
      row: i + 1,
      title: cells.slice(0, first).join(' ').trim(),
      group: hasSecond ? (cells[0] ?? '') : '',
      cells: cells.slice(first, cells.findLastIndex((cell) => cell !== '') + 1),
    })),
  };
}

function records(file: string, text: string, problems: ProblemList): readonly (readonly string[])[] {
  if (!isReadable(file, text, problems)) return [];
  try {
    return parse(text, {
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
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    problems.add('not-csv', { file }, quote(error.message, 120), 'a table of cells parted by commas');
    return [];
  }
}
