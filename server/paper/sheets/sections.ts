/** Sections of the frame true to shape: outer wedge, stack, inner wedge, as they are glued. */
import type { Plan, PlannedMark } from '../../core/plan.ts';
import type { Pen } from '../draw/pen.ts';
import type { Sheets } from '../draw/sheets.ts';
import { callFigure, figureOf } from '../lengths.ts';

const COLUMNS = 2;
/** Over a section its name, under it a little air. */
const ROOM_MM = 17;
const MOST = 4;
/** Room at either side of a section for the thickness of an edge. */
const SIDE_MM = 21;

/** The first and last mark, the greatest and the least bevel, and others evenly between. */
export function marksToShow(marks: readonly PlannedMark[]): readonly PlannedMark[] {
  const bySize = marks.toSorted((a, b) => Math.abs(a.sawnDeg) - Math.abs(b.sawnDeg));
  const wanted = new Set([marks[0], marks.at(-1), bySize.at(-1), bySize[0]]);
  for (let part = 1; wanted.size < Math.min(MOST, marks.length) && part < MOST; part += 1)
    wanted.add(marks[Math.round((part * (marks.length - 1)) / MOST)]);
  return marks.filter((mark) => wanted.has(mark));
}

export function drawSections(sheets: Sheets, plan: Plan): void {
  sheets.turnPage();
  const shown = marksToShow(plan.marks);
  const stackMm = plan.stack.plies * plan.stack.laminationMm;
  const tallMm = Math.max(
    ...shown.map((mark) => stackMm + Math.max(...mark.outerEdgesMm) + Math.max(...mark.innerEdgesMm)),
  );
  const cellWide = sheets.wideMm / COLUMNS;
  const highestMm = sheets.leftOverMm() - 30 - ROOM_MM;
  const room = Math.min((cellWide - 2 * SIDE_MM) / plan.frame.sidingMm, highestMm / tallMm);
  const over = [1, 2, 4, 5, 8, 10, 20].find((each) => 1 / each <= room) ?? Math.ceil(1 / room);
  const cellMm = tallMm / over + ROOM_MM;
  sheets.heading(over === 1 ? 'Sections, full size' : `Sections, scale 1 : ${over}`);
  sheets.paragraph(
    `Thickness of the edges square to the flats${plan.units === 'mm' ? ', mm' : ''}. Planking above, inside of the boat below; forward at the left.`,
  );
  for (let row = 0; row * COLUMNS < shown.length; row += 1) {
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
  const siding = plan.frame.sidingMm * scale;
  const stack = plan.stack.plies * plan.stack.laminationMm * scale;
  const [left, right] = [middle - siding / 2, middle + siding / 2];
  const upper = top + 12 + Math.max(...mark.outerEdgesMm) * scale;
  const lower = upper + stack;
  const [outerForward, outerAft] = mark.outerEdgesMm;
  const [innerForward, innerAft] = mark.innerEdgesMm;
  pen.area(
    [
      [left, upper],
      [left, upper - outerForward * scale],
      [right, upper - outerAft * scale],
      [right, upper],
    ],
    'pale',
    { widthMm: 0.5 },
  );
  pen.area(
    [
      [left, lower],
      [left, lower + innerForward * scale],
      [right, lower + innerAft * scale],
      [right, lower],
    ],
    'pale',
    { widthMm: 0.5 },
  );
  pen.box(left, upper, siding, stack, undefined, { widthMm: 0.3 });
  const plies = Math.min(plan.stack.plies, 60);
  for (let ply = 1; ply < plies; ply += 1) {
    const y = upper + (stack * ply) / plies;
    pen.line(
      [
        [left, y],
        [right, y],
      ],
      { widthMm: 0.1 },
    );
  }
  const beside = (mm: number, x: number, y: number, align: 'left' | 'right'): void =>
    void pen.words(figureOf(mm, plan.units), x, y, { sizeMm: 5, align, withinMm: SIDE_MM - 2 });
  beside(outerForward, left - 1.5, upper - 0.8, 'right');
  beside(outerAft, right + 1.5, upper - 0.8, 'left');
  beside(innerForward, left - 1.5, lower + 4.4, 'right');
  beside(innerAft, right + 1.5, lower + 4.4, 'left');
}
