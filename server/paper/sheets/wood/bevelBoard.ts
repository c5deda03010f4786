/** The bevel board: each mark's bevel as a line across a board, to set a sliding bevel by. */

import { errorFigure } from '../../../core/figures/degrees.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import { tanDeg } from '../../../core/units.ts';
import type { Sheets } from '../../draw/sheets.ts';
import { bevelFigure } from '../../paperFigures.ts';
import { drawPrintCheck } from '../printCheck.ts';

/** The board's width: long enough for the blade of a sliding bevel. */
const BOARD_MM = 110;
const PITCH_MM = 11;
const LABEL_MM = 22;

export function drawBevelBoard(sheets: Sheets, plan: Plan): void {
  sheets.paragraph(
    'Hold the stock of a sliding bevel to the strong edge at the left and set its blade to the line. The bevels are those sawn, off square, standing + and under −; not what the readout shows.',
  );
  if (plan.marks.some(({ errorDeg }) => errorDeg !== undefined))
    sheets.paragraph('Behind ± is what the table of offsets may make a bevel wrong by.');
  drawPrintCheck(sheets, sheets.leftMm + LABEL_MM);
  let from = 0;
  while (from < plan.marks.length) {
    const fits = fitting(plan.marks.slice(from), sheets.leftOverMm() - 6);
    if (fits.length === 0) {
      turnPage(sheets);
      continue;
    }
    drawBoard(sheets, fits);
    from += fits.length;
    if (from < plan.marks.length) turnPage(sheets);
  }
}

/** Sheets come apart, and may have been printed apart: each has its own bars. */
function turnPage(sheets: Sheets): void {
  sheets.turnPage();
  drawPrintCheck(sheets, sheets.leftMm + LABEL_MM);
}

interface Line {
  readonly mark: number;
  readonly sawnDeg: number;
  /** Only from offsets. */
  readonly errorDeg?: number;
  /** Below the board's top, at its left edge and at its right. */
  readonly leftMm: number;
  readonly rightMm: number;
}

/** As many lines as there is room for, no two of them crossing or touching. A standing bevel falls to the right. */
function fitting(marks: readonly Pick<Line, 'mark' | 'sawnDeg' | 'errorDeg'>[], roomMm: number): readonly Line[] {
  const lines: Line[] = [];
  for (const { mark, sawnDeg, errorDeg } of marks) {
    const falls = BOARD_MM * tanDeg(sawnDeg);
    const last = lines.at(-1);
    const leftMm = Math.max((last?.leftMm ?? 0) + PITCH_MM, (last?.rightMm ?? 0) + PITCH_MM - falls);
    const line = { mark, sawnDeg, ...(errorDeg === undefined ? {} : { errorDeg }), leftMm, rightMm: leftMm + falls };
    if (Math.max(line.leftMm, line.rightMm) > roomMm) break;
    lines.push(line);
  }
  return lines;
}

function drawBoard(sheets: Sheets, lines: readonly Line[]): void {
  const high = Math.max(...lines.flatMap(({ leftMm, rightMm }) => [leftMm, rightMm])) + 6;
  const top = sheets.take(high);
  const { pen } = sheets;
  const left = sheets.leftMm + LABEL_MM;
  pen.line(
    [
      [left, top],
      [left, top + high],
    ],
    { widthMm: 0.8 },
  );
  pen.line(
    [
      [left + BOARD_MM, top],
      [left + BOARD_MM, top + high],
    ],
    { widthMm: 0.15 },
  );
  for (const line of lines) {
    const [y0, y1] = [top + line.leftMm, top + line.rightMm];
    pen.line(
      [
        [left, y0],
        [left + BOARD_MM, y1],
      ],
      { widthMm: 0.35 },
    );
    pen.box(sheets.leftMm, y0 - 3.6, LABEL_MM - 4, 7.2, 'black');
    pen.words(`${line.mark}`, sheets.leftMm + (LABEL_MM - 4) / 2, y0 + 2.1, {
      sizeMm: 6,
      face: 'strong',
      ink: 'white',
      align: 'middle',
    });
    pen.words(`${bevelFigure(line.sawnDeg)}°`, left + BOARD_MM + 4, y1 + 2.2, { sizeMm: 6.5, face: 'strong' });
    if (line.errorDeg !== undefined)
      pen.words(`${errorFigure(line.errorDeg)}°`, left + BOARD_MM + 32, y1 + 2.2, { sizeMm: 4.8 });
  }
}
