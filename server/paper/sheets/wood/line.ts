/** Where the cut runs on the stock: the fence's setting, or the lines to draw, mark by mark. */

import { unitInHead } from '../../../core/figures/lengths.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import { rowAt } from '../../../core/rowAt.ts';
import { firstBevelSentence } from '../../../core/text/sawCheckText.ts';
import type { Sheets } from '../../draw/sheets.ts';
import { callFigure, figureOf, lengthOf } from '../../paperFigures.ts';
import { wayRound } from '../../wayRound.ts';
import { drawTable } from '../table.ts';

/** How the fence is set, or at what height the line is straight; '' for plans made before they told. */
export function lineSentence(plan: Plan): string {
  const { rip, notation } = plan;
  if (rip === undefined) return '';
  const { straightAtMm, lineMm, feeds } = rip;
  const length = (mm: number): string => lengthOf(mm, notation);
  if (feeds === 'along a line')
    return `The cut is straight, ${length(lineMm)} from the reference face, only at ${length(straightAtMm)} above the table. On the upper side, where the sawyer looks, it is another at each mark: draw it by the table of the lines. The reference face is the one on the sawyer's ${wayRound(plan).fence}.`;
  const at =
    straightAtMm === 0
      ? 'on the table'
      : `${length(Math.abs(straightAtMm))} ${straightAtMm > 0 ? 'above' : 'below'} the table`;
  return `Set it with the blade square: the middle of the kerf keeps ${length(lineMm)} from the face at the fence. At every tilt it does so ${at}.`;
}

/** How the first bevel is come to, with the figures as the readout shows them. */
export const firstBevel = ({ sawTruth, saw }: Plan): string =>
  sawTruth === undefined || sawTruth.comeToFirst === 'either way'
    ? ''
    : firstBevelSentence(sawTruth, (deg) => `${callFigure(deg, saw)}°`);

/** Upper and lower line at each mark, in the order of the run; only where there is a line to follow. */
export function drawLineTable(sheets: Sheets, { rip, marks, leads, notation }: Plan): void {
  if (rip?.feeds !== 'along a line') return;
  sheets.turnPage();
  sheets.heading('The lines to draw, from the reference face');
  const order = leads === 'head' ? marks.toReversed() : marks;
  const start = rowAt(order, 0).stockMm;
  const unit = unitInHead(notation);
  drawTable(
    sheets,
    [
      { head: 'Mark', wideMm: 22, align: 'middle', sizeMm: 6, face: 'strong' },
      { head: `Along${unit}`, wideMm: 40, align: 'right', sizeMm: 5.5 },
      { head: `Upper side${unit}`, wideMm: 45, align: 'right', sizeMm: 6, face: 'strong' },
      { head: `Lower side${unit}`, wideMm: 45, align: 'right', sizeMm: 6 },
    ],
    order.map(({ mark, stockMm, lineTopMm, lineBottomMm }) => [
      `${mark}`,
      ...[Math.abs(stockMm - start), lineTopMm, lineBottomMm].map((mm) => figureOf(mm, notation)),
    ]),
    (next) => `The lines go on on sheet ${next}.`,
  );
}
