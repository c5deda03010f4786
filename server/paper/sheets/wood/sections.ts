/** Sections of the frame true to shape: outer wedge, stack, inner wedge, as they are glued. */
import { unitInHead } from '../../../core/figures/lengths.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import type { PlannedMark } from '../../../core/rip/plannedMark.ts';
import type { Pen } from '../../draw/pen.ts';
import type { Sheets } from '../../draw/sheets.ts';
import { callFigure, figureOf } from '../../paperFigures.ts';
import { drawPrintCheck, PRINT_CHECK_MM } from '../printCheck.ts';
import { drawFrameSection, tallMm } from './frameSection.ts';

const COLUMNS = 2;
/** Over a section its name, under it a little air. */
const ROOM_MM = 17;
const MOST = 4;
/** Room at either side of a section for the thickness of an edge. */
const SIDE_MM = 21;

/** The first and last mark, the greatest and the least bevel, and others evenly between. */
function marksToShow(marks: readonly PlannedMark[]): readonly PlannedMark[] {
  const bySize = marks.toSorted((a, b) => Math.abs(a.sawnDeg) - Math.abs(b.sawnDeg));
  const wanted = new Set([marks[0], marks.at(-1), bySize.at(-1), bySize[0]]);
  for (let part = 1; wanted.size < Math.min(MOST, marks.length) && part < MOST; part += 1)
    wanted.add(marks[Math.round((part * (marks.length - 1)) / MOST)]);
  return marks.filter((mark) => wanted.has(mark));
}

export function drawSections(sheets: Sheets, plan: Plan): void {
  sheets.turnPage();
  const shown = marksToShow(plan.marks);
  const highestMm = Math.max(...shown.map((mark) => tallMm(plan, mark)));
  const cellWide = sheets.wideMm / COLUMNS;
  const roomMm = sheets.leftOverMm() - 30 - PRINT_CHECK_MM - ROOM_MM;
  const room = Math.min((cellWide - 2 * SIDE_MM) / plan.frame.sidingMm, roomMm / highestMm);
  const over = [1, 2, 4, 5, 8, 10, 20].find((each) => 1 / each <= room) ?? Math.ceil(1 / room);
  const cellMm = highestMm / over + ROOM_MM;
  sheets.heading(over === 1 ? 'Sections, full size' : `Sections, scale 1 : ${over}`);
  sheets.paragraph(
    `Thickness of the edges square to the flats${unitInHead(plan.notation)}. Planking above, inside of the boat below; forward at the left.`,
  );
  drawPrintCheck(sheets, sheets.leftMm);
  for (let row = 0; row * COLUMNS < shown.length; row += 1) {
    if (sheets.leftOverMm() < cellMm) {
      sheets.turnPage();
      drawPrintCheck(sheets, sheets.leftMm);
    }
    const top = sheets.take(cellMm);
    shown.slice(row * COLUMNS, (row + 1) * COLUMNS).forEach((mark, column) => {
      drawSection(sheets.pen, plan, mark, sheets.leftMm + (column + 0.5) * cellWide, top, cellWide, 1 / over);
    });
  }
}

function drawSection(
  pen: Pen,
  plan: Plan,
  mark: PlannedMark,
  middle: number,
  top: number,
  wide: number,
  scale: number,
): void {
  pen.words(`Mark ${mark.mark}`, middle - 2, top + 7, {
    sizeMm: 6.5,
    face: 'strong',
    align: 'right',
    withinMm: wide / 2 - 4,
  });
  pen.words(`call ${callFigure(mark.callDeg, plan.saw)}°`, middle + 2, top + 7, {
    sizeMm: 6.5,
    withinMm: wide / 2 - 4,
  });
  const drawn = drawFrameSection(pen, plan, mark, { middleMm: middle, topMm: top + 12, scale });
  const { leftMm: left, rightMm: right, upperMm: upper, lowerMm: lower } = drawn;
  const [outerForward, outerAft] = mark.outerEdgesMm;
  const [innerForward, innerAft] = mark.innerEdgesMm;
  const beside = (mm: number, x: number, y: number, align: 'left' | 'right'): void =>
    void pen.words(figureOf(mm, plan.notation), x, y, { sizeMm: 5, align, withinMm: SIDE_MM - 2 });
  beside(outerForward, left - 1.5, upper - 0.8, 'right');
  beside(outerAft, right + 1.5, upper - 0.8, 'left');
  beside(innerForward, left - 1.5, lower + 4.4, 'right');
  beside(innerAft, right + 1.5, lower + 4.4, 'left');
}
