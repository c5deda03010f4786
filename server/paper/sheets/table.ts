/** A table over as many pages as it needs, its head on each. */
import { rowAt } from '../../core/rowAt.ts';
import type { Face } from '../draw/page.ts';
import { heightOf, type Sheets } from '../draw/sheets.ts';
import { widthMm, writable } from '../draw/typeface.ts';

interface Column {
  readonly head: string;
  readonly wideMm: number;
  readonly align: 'left' | 'right' | 'middle';
  readonly sizeMm: number;
  readonly face?: Face;
  /** White on black, so that it is not taken for another figure. */
  readonly isBoxed?: boolean;
  /** Words that are to be said: never cut short, over several lines where they are long. Only at the left. */
  readonly isWhole?: boolean;
  /** An empty box in each row, to be ticked. */
  readonly isTick?: boolean;
}

const HEAD_MM = 8;
const GO_ON_MM = 9;
const PAD_MM = 1.5;
const TICK_MM = 5;
/** Of the size where words go over several lines. */
const SMALLER = 0.85;

/** `goesOn`: what is said at the foot of a sheet of which the next, of this number, goes on with the table. */
export function drawTable(
  sheets: Sheets,
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
  goesOn?: (next: number) => string,
): void {
  const high = rows.map((row) => Math.max(...columns.map((column, at) => cellHighMm(column, row[at] ?? ''))));
  const footMm = goesOn === undefined ? 0 : GO_ON_MM;
  let isFresh = false;
  for (let from = 0; from < rows.length; ) {
    const count = rowsHere(high.slice(from), sheets.leftOverMm() - HEAD_MM, footMm, isFresh);
    if (count > 0) drawHead(sheets, columns);
    for (let row = from; row < from + count; row++)
      drawRow(sheets, columns, rows[row] ?? [], rowAt(high, row), row % 5 === 4);
    from += count;
    if (from >= rows.length) return;
    if (goesOn !== undefined && count > 0) sayGoesOn(sheets, goesOn(sheets.sheet + 1));
    sheets.turnPage();
    isFresh = true;
  }
}

/** How many of these rows stand on this page: all, or as many as leave at least two on each of two pages. */
export function rowsHere(highMm: readonly number[], roomMm: number, footMm: number, isFresh: boolean): number {
  if (highMm.reduce((sum, each) => sum + each, 0) <= roomMm) return highMm.length;
  let count = 0;
  let left = roomMm - footMm;
  for (const each of highMm) {
    if (each > left) break;
    left -= each;
    count += 1;
  }
  if (highMm.length - count < 2) count = highMm.length - 2;
  // A page that holds no two rows holds what it can; another would hold no more.
  return isFresh ? Math.max(1, count) : count < 2 ? 0 : count;
}

function sayGoesOn(sheets: Sheets, goesOn: string): void {
  const top = sheets.take(GO_ON_MM);
  const [right, at] = [sheets.leftMm + sheets.wideMm, top + GO_ON_MM - 2];
  sheets.pen.words(goesOn, right, at, { sizeMm: 5.5, face: 'strong', align: 'right', withinMm: sheets.wideMm });
}

const isLong = ({ isWhole = false, wideMm, sizeMm, face = 'plain' }: Column, text: string): boolean =>
  isWhole && widthMm(writable(text), face, sizeMm) > wideMm - 2 * PAD_MM;

/** A mark and its figure are said apart, and stand apart: no figure begins in one line and ends in the next. */
const partsOf = (text: string): readonly string[] => text.split(/(?<=,) /);

function cellHighMm(column: Column, text: string): number {
  const { sizeMm, wideMm, face = 'plain' } = column;
  const lineMm = sizeMm * 1.22;
  if (!isLong(column, text)) return lineMm;
  const type = { sizeMm: sizeMm * SMALLER, face };
  return Math.max(
    lineMm,
    partsOf(text).reduce((sum, part) => sum + heightOf(part, wideMm - 2 * PAD_MM, type), 1.5),
  );
}

function lefts(sheets: Sheets, columns: readonly Column[]): readonly number[] {
  let left = sheets.leftMm;
  return columns.map(({ wideMm }) => {
    left += wideMm;
    return left - wideMm;
  });
}

function placeOf({ align, wideMm }: Column, left: number): number {
  if (align === 'left') return left + PAD_MM;
  return align === 'right' ? left + wideMm - PAD_MM : left + wideMm / 2;
}

function drawHead(sheets: Sheets, columns: readonly Column[]): void {
  const top = sheets.take(HEAD_MM);
  const at = lefts(sheets, columns);
  columns.forEach((column, index) => {
    const { head, align, wideMm } = column;
    const x = placeOf(column, rowAt(at, index));
    sheets.pen.words(head, x, top + 5.5, { sizeMm: 4, face: 'strong', align, withinMm: wideMm - 2 * PAD_MM });
  });
  rule(sheets, top + HEAD_MM - 0.6, 0.5);
}

function drawRow(
  sheets: Sheets,
  columns: readonly Column[],
  row: readonly string[],
  highMm: number,
  isRuled: boolean,
): void {
  const top = sheets.take(highMm);
  const at = lefts(sheets, columns);
  for (const [index, column] of columns.entries())
    drawCell(sheets, column, row[index] ?? '', rowAt(at, index), top, highMm);
  rule(sheets, top + highMm, isRuled ? 0.5 : 0.12);
}

function drawCell(sheets: Sheets, column: Column, text: string, left: number, top: number, highMm: number): void {
  const { align, sizeMm, face = 'plain', wideMm, isBoxed = false } = column;
  const { pen } = sheets;
  const room = wideMm - 2 * PAD_MM;
  if (column.isTick === true) {
    pen.box(left + (wideMm - TICK_MM) / 2, top + (highMm - TICK_MM) / 2, TICK_MM, TICK_MM, undefined, {
      widthMm: 0.35,
    });
    return;
  }
  if (isLong(column, text)) {
    const type = { sizeMm: sizeMm * SMALLER, face };
    const parts = partsOf(text);
    let at = top + (highMm - parts.reduce((sum, part) => sum + heightOf(part, room, type), 0)) / 2;
    for (const part of parts) at = pen.block(part, left + PAD_MM, at, room, type);
    return;
  }
  const boxed = isBoxed && text !== '';
  if (boxed) pen.box(left, top + highMm * 0.06, wideMm - 1, highMm * 0.88, 'black');
  pen.words(text, placeOf(column, left), top + highMm / 2 + sizeMm * 0.35, {
    sizeMm,
    face,
    align,
    ink: boxed ? 'white' : 'black',
    withinMm: room,
  });
}

const rule = ({ pen, leftMm, wideMm }: Sheets, yMm: number, widthOfLineMm: number): void =>
  pen.line(
    [
      [leftMm, yMm],
      [leftMm + wideMm, yMm],
    ],
    { widthMm: widthOfLineMm },
  );
