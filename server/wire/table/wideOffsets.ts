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
import type { OffsetPoint } from '../../core/hull/offsets.ts';
import { roundingOfMm } from '../../core/hull/tableRounding.ts';
import { readLengthCell, type Units } from '../length/parseLength.ts';
import type { ProblemList } from '../problem/problemList.ts';
import { quote, showName } from '../problem/showFound.ts';
import type { DraftStation } from './draftStation.ts';
import { type HullLine, kindIn } from './hullLine.ts';
import { sectionOf, type WideSection } from './wideBlock.ts';
import { type LineRow, WideReading } from './wideReading.ts';
import { wideRows } from './wideRows.ts';

export function readWideOffsets(
  file: string,
  text: string,
  units: Units,
  problems: ProblemList,
): readonly DraftStation[] {
  const name = showName(file);
  const table = wideRows(name, text, problems);
  if (table === undefined) return [];
  const { stations: labels } = table;
  const read = new WideReading(name, labels, units, problems, kindIn(table.title));
  for (const row of table.rows) read.take(row);
  read.mixed.tell();
  const xs = read.xs ?? placesInHeading(name, labels, units, problems);
  const hasRabbet = read.lines.some(({ line }) => line.kind === 'rabbet');
  const lines = read.lines.filter(({ line }) => !(hasRabbet && line.kind === 'keel'));
  wantEnds(lines, labels, name, problems);
  wantLevels(lines, name, problems);
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
  return drafts.map((draft) => {
    const { points, unsure } = sectionOf(draft.points, roundingMm);
    if (unsure !== undefined) tellUnsure(name, draft.label, unsure, problems);
    return { ...draft, points };
  });
}

function tellUnsure(
  file: string,
  station: string,
  [a, b]: NonNullable<WideSection['unsure']>,
  problems: ProblemList,
): void {
  const { row, column, text } = a.yCell;
  problems.add(
    'out-of-order',
    { file, row, column },
    `${quote(text)} on ${a.line.name} and ${quote(b.yCell.text)} on ${b.line.name} (row ${b.yCell.row}), side by side on station ${station}`,
    'points of which can be told which comes first from rabbet to sheer: check both figures; if they are right, leave one out or give this table a point a row, in order (station,x,y,z)',
  );
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

/** Waterlines called 1, 2, 3 are numbered: nobody draws them a millimetre or an inch apart. */
function wantLevels(lines: readonly LineRow[], file: string, problems: ProblemList): void {
  for (const [kind, what] of [
    ['waterline', 'the heights of the waterlines and not their numbers, such as "WL 1 at 0-8-0" or "WL 200"'],
    ['buttock', 'how far out the buttocks lie and not their numbers, such as "Buttock 1 at 0-8-0" or "Buttock 200"'],
  ] as const) {
    const levels = lines.filter(({ line }) => line.kind === kind).map(({ line }) => line.level);
    const sorted = levels.map(Number).sort((a, b) => a - b);
    if (sorted.length > 1 && sorted.every((level, i) => level === i + 1))
      problems.add('missing', { file, column: 'line' }, `${kind}s ${sorted.join(', ')}`, what);
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
