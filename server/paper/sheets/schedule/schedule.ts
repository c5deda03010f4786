/** The caller's sheets: what is to be said at each mark. They begin anew, so that he has nothing else before him. */
import { unitInHead } from '../../../core/figures/lengths.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import { grammarOf } from '../../../core/words/languages.ts';
import type { Sheets } from '../../draw/sheets.ts';
import { callFigure, figureOf } from '../../paperFigures.ts';
import { blockingLines } from '../blockingWarnings.ts';
import { drawSquareRule } from '../squareRule.ts';
import { drawTable } from '../table.ts';
import { spokenSteps } from './spokenSteps.ts';

export function drawSchedule(sheets: Sheets, plan: Plan): void {
  const { notation, saw } = plan;
  sheets.turnPage();
  if (blockingLines(plan).length > 0)
    sheets.paragraph('Do not saw yet. First settle what sheet 1 says.', { sizeMm: 6.5, face: 'strong' });
  sheets.paragraph(
    'When the line of a mark is at the blade, say the words in its row, loud and at once. The tilt hand says the figure back and has turned to it before the next mark.',
    { sizeMm: 5, face: 'strong' },
  );
  drawSquareRule(sheets, plan);
  const call = (deg: number | null): string => (deg === null ? '' : `${callFigure(deg, saw)}°`);
  const rest = sheets.wideMm - 20 - 26 - 22 - 16 - 24 - 10;
  const language = grammarOf(plan.voice.language).name;
  drawTable(
    sheets,
    [
      { head: 'At blade', wideMm: 20, align: 'middle', sizeMm: 7.5, face: 'strong', isBoxed: true },
      { head: `Along${unitInHead(notation)}`, wideMm: 26, align: 'right', sizeMm: 5.5 },
      { head: 'Readout', wideMm: 22, align: 'right', sizeMm: 6.5 },
      { head: `Say now (${language})`, wideMm: rest, align: 'left', sizeMm: 6, face: 'strong', isWhole: true },
      { head: '', wideMm: 16, align: 'left', sizeMm: 5 },
      { head: 'Turn to', wideMm: 24, align: 'right', sizeMm: 8.5, face: 'strong' },
      { head: 'Done', wideMm: 10, align: 'middle', sizeMm: 5, isTick: true },
    ],
    spokenSteps(plan).map(({ mark, alongMm, callDeg, say, toDeg, turn }) => [
      mark === null ? 'first' : `${mark}`,
      alongMm === null ? 'before the wood' : figureOf(alongMm, notation),
      call(callDeg),
      say,
      turn,
      call(toDeg),
      '',
    ]),
    (next) => `It continues on sheet ${next}: lay the sheets side by side before the cut.`,
  );
}
