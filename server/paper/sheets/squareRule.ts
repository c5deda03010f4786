/** With paper alone nothing shifts the figures for a readout that is off at square: the rule by which the caller does, and what was read. */
import type { Plan } from '../../core/plan/plan.ts';
import { squareDeg } from '../../core/plan/squareAtZero.ts';
import type { Sheets } from '../draw/sheets.ts';
import { callFigure } from '../paperFigures.ts';
import { spokenSteps } from './schedule/spokenSteps.ts';
import { drawTable } from './table.ts';

const ROW_MM = 7;
/** Steps of the readout that are tabled; farther off, the readout is to be set. */
const STEPS = [-2, -1, 1, 2];

export function drawSquareRule(sheets: Sheets, plan: Plan): void {
  const { saw } = plan;
  const wanted = squareDeg(saw);
  const firstDeg = spokenSteps(plan)[0]?.toDeg ?? 0;
  const figure = (deg: number): string => `${callFigure(deg, saw)}°`;
  const [top, right] = [sheets.take(ROW_MM + 2), sheets.leftMm + sheets.wideMm];
  const base = top + ROW_MM - 1;
  const line = (fromMm: number, toMm: number): void =>
    sheets.pen.line(
      [
        [fromMm, base + 0.6],
        [toMm, base + 0.6],
      ],
      { widthMm: 0.3 },
    );
  const asked = `Blade square: the readout must show ${figure(wanted)}. It shows`;
  const wide = sheets.pen.words(asked, sheets.leftMm, base, { sizeMm: 4.6, face: 'strong' });
  line(sheets.leftMm + wide + 2, right - 46);
  sheets.pen.words('initials', right - 43, base, { sizeMm: 4.6, face: 'strong' });
  line(right - 27, right);
  sheets.paragraph(
    'Set the readout so that it does. If it cannot be set, every figure here is off by as much: before you begin, write the right figure beside each row, and say that one. If it is farther off than in this table, do not saw until it is set.',
    { sizeMm: 4.2 },
  );
  const headMm = 44;
  const each = { wideMm: (sheets.wideMm - headMm) / STEPS.length, align: 'middle' as const, sizeMm: 5 };
  drawTable(
    sheets,
    [
      { head: 'Where it shows', wideMm: headMm, align: 'left', sizeMm: 4.6 },
      ...STEPS.map((steps) => ({ head: figure(wanted + steps * saw.readoutDeg), ...each })),
    ],
    [[`${figure(firstDeg)} becomes`, ...STEPS.map((steps) => figure(firstDeg + steps * saw.readoutDeg))]],
  );
  sheets.topMm += 2;
}
