/** A table over as many pages as it needs, its head on each. */
import type { Face } from '../draw/page.ts';
import type { Sheets } from '../draw/sheets.ts';

export interface Column {
  readonly head: string;
  readonly wideMm: number;
  readonly align: 'left' | 'right' | 'middle';
  readonly sizeMm: number;
  readonly face?: Face;
  /** White on black, so that it is not taken for another figure. */
  readonly isBoxed?: boolean;
}

const HEAD_MM = 8;

export function drawTable(sheets: Sheets, columns: readonly Column[], rows: readonly (readonly string[])[]): void {
  const highMm = Math.max(...columns.map(({ sizeMm }) => sizeMm)) * 1.22;
  sheets.take(0);
  let isHeadOwed = true;
  rows.forEach((row, index) => {
    if (sheets.leftOverMm() < highMm + (isHeadOwed ? HEAD_MM : 0)) {
      sheets.turnPage();
      isHeadOwed = true;
    }
    if (isHeadOwed) drawHead(sheets, columns);
    isHeadOwed = false;
    drawRow(sheets, columns, row, highMm, index % 5 === 4);
  });
}

function lefts(sheets: Sheets, columns: readonly Column[]): readonly number[] {
  let left = sheets.leftMm;
  return columns.map(({ wideMm }) => {
    left += wideMm;
    return left - wideMm;
  });
}

const PAD_MM = 1.5;
function placeOf({ align, wideMm }: Column, left: number): number {
  if (align === 'left') return left + PAD_MM;
  return align === 'right' ? left + wideMm - PAD_MM : left + wideMm / 2;
}

function drawHead(sheets: Sheets, columns: readonly Column[]): void {
  const top = sheets.take(HEAD_MM);
  const at = lefts(sheets, columns);
  columns.forEach((column, index) => {
    const { head, align, wideMm } = column;
    const x = placeOf(column, at[index] ?? 0);
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
  columns.forEach((column, index) => {
    const text = row[index] ?? '';
    const { align, sizeMm, face = 'plain', wideMm, isBoxed = false } = column;
    const left = at[index] ?? 0;
    const base = top + highMm / 2 + sizeMm * 0.35;
    const boxed = isBoxed && text !== '';
    if (boxed) sheets.pen.box(left, top + highMm * 0.06, wideMm - 1, highMm * 0.88, 'black');
    sheets.pen.words(text, placeOf(column, left), base, {
      sizeMm,
      face,
      align,
      ink: boxed ? 'white' : 'black',
      withinMm: wideMm - 2 * PAD_MM,
    });
  });
  rule(sheets, top + highMm, isRuled ? 0.5 : 0.12);
}

const rule = ({ pen, leftMm, wideMm }: Sheets, yMm: number, widthMm: number): void =>
  pen.line(
    [
      [leftMm, yMm],
      [leftMm + wideMm, yMm],
    ],
    { widthMm },
  );
