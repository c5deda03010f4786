/** The row over what is drawn true: bars to measure the print by, and how it is printed. */
import { drawBars } from '../draw/bars.ts';
import type { Sheets } from '../draw/sheets.ts';

export const PRINT_CHECK_MM = 11;

export function drawPrintCheck(sheets: Sheets, leftMm: number): void {
  const top = sheets.take(PRINT_CHECK_MM);
  drawBars(sheets.pen, leftMm, top + 3);
  sheets.pen.words('Print at 100 %', leftMm + 108, top + 6.5, {
    sizeMm: 4.5,
    face: 'strong',
    withinMm: sheets.leftMm + sheets.wideMm - leftMm - 110,
  });
}
