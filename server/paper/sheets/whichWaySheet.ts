/** Which way round: the stock on the saw, the cut seen along the feed, the halves in the frame, and what to write on them. */
import type { Plan } from '../../core/plan/plan.ts';
import { edgeOf, otherEdge } from '../../core/rip/wedges.ts';
import { chalkSentence, handChangeSentence, whichWaySentence } from '../../core/text/leadingEndText.ts';
import type { Point } from '../draw/page.ts';
import type { Pen } from '../draw/pen.ts';
import { type Sheets, TEXT } from '../draw/sheets.ts';
import { lengthOf } from '../paperFigures.ts';
import { wayRound } from '../wayRound.ts';
import { drawFrameSection, tallMm } from './wood/frameSection.ts';

export function drawWhichWay(sheets: Sheets, plan: Plan): void {
  const first = plan.leads === 'heel' ? plan.marks[0] : plan.marks.at(-1);
  const head = sheets.take(17);
  sheets.pen.words(
    `${plan.leads.toUpperCase()} FIRST, ${wayRound(plan).upEdge.toUpperCase()} EDGE UP`,
    sheets.leftMm,
    head + 13,
    {
      sizeMm: 13,
      face: 'strong',
      withinMm: sheets.wideMm,
    },
  );
  if (!plan.leadsIsSure)
    sheets.paragraph(
      'Not confirmed: this rests on fields that were filled in. See whether side, moulded face and the lean of the blade are so before anything is sawn.',
      {
        sizeMm: 5.4,
        face: 'strong',
      },
    );
  sheets.paragraph(whichWaySentence(plan), TEXT);
  const above = sheets.take(50);
  drawFromAbove(sheets.pen, plan, sheets.leftMm, above, sheets.wideMm, first?.mark ?? 1);
  const below = sheets.take(83);
  const half = sheets.wideMm / 2;
  drawAlongTheFeed(sheets.pen, plan, sheets.leftMm + half / 2, below, half - 6);
  drawInTheFrame(sheets.pen, plan, sheets.leftMm + half * 1.5, below, half - 6);
  sheets.paragraph(chalkSentence(plan), TEXT);
  sheets.paragraph(
    'Witness marks: in the waste at both ends draw a triangle across the line of the cut, its point to the head. Each half keeps one side of it; the two make the triangle again only where nothing has been turned.',
    TEXT,
  );
  for (const change of plan.rip?.handChanges ?? [])
    sheets.paragraph(
      handChangeSentence(change, plan, (mm) => lengthOf(mm, plan.notation)),
      TEXT,
    );
}

/** The feed runs to the left, as the strip reads; so the sawyer's left is below and his right above. */
function drawFromAbove(pen: Pen, plan: Plan, left: number, top: number, wide: number, firstMark: number): void {
  const isFenceBelow = wayRound(plan).fence === 'left';
  pen.box(left, top + 6, wide, 40, undefined, { widthMm: 0.3, ink: 'grey' });
  const [x0, x1, y0, y1] = [left + 46, left + wide - 8, top + 18, top + 34];
  const fence = isFenceBelow ? y1 : y0 - 3;
  // Where a line is followed the stock does not run along the fence: its face on that side is what is measured from.
  const isFenced = plan.rip?.feeds !== 'along a line';
  if (isFenced) pen.box(left + 22, fence, wide - 44, 3, 'black');
  pen.words(isFenced ? 'fence' : 'reference face on this side', left + 26, isFenceBelow ? fence + 7.6 : fence - 1.6, {
    sizeMm: 4.5,
  });
  pen.box(x0, y0, x1 - x0, y1 - y0, 'pale', { widthMm: 0.5 });
  const cut = (y0 + y1) / 2;
  pen.line(
    [
      [x0, cut],
      [x1, cut],
    ],
    { widthMm: 0.3, dashMm: [2.5, 1.5] },
  );
  pen.line(
    [
      [left + 32, cut],
      [left + 42, cut],
    ],
    { widthMm: 1.4 },
  );
  pen.words('blade', left + 37, cut - 2.5, { sizeMm: 4.5, align: 'middle' });
  drawWitness(pen, plan, x0 + 3, cut);
  drawWitness(pen, plan, x1 - 15, cut);
  const other = plan.leads === 'heel' ? 'HEAD' : 'HEEL';
  pen.words(plan.leads.toUpperCase(), x0 + 18, y0 + 6.3, { sizeMm: 6, face: 'strong' });
  pen.words(other, x1 - 18, y0 + 6.3, { sizeMm: 6, face: 'strong', align: 'right' });
  pen.words(`${wayRound(plan).upEdge} edge up`, (x0 + x1) / 2, y0 + 6, { sizeMm: 5, align: 'middle' });
  pen.words(`mark ${firstMark} comes first`, (x0 + x1) / 2, y1 - 2.2, { sizeMm: 4.5, align: 'middle' });
  pen.arrow(
    [left + wide * 0.72, isFenceBelow ? y0 - 4 : y1 + 4],
    [left + wide * 0.52, isFenceBelow ? y0 - 4 : y1 + 4],
    { widthMm: 0.8 },
  );
  pen.words('feed', left + wide * 0.72 + 3, (isFenceBelow ? y0 - 4 : y1 + 4) + 1.6, { sizeMm: 4.5 });
  pen.words('From above', left, top + 4, { sizeMm: 4.5, face: 'strong' });
  pen.words('tailer', left + 2, top + 44, { sizeMm: 4.5 });
  pen.words('sawyer', left + wide - 2, top + 44, { sizeMm: 4.5, align: 'right' });
}

function drawWitness(pen: Pen, plan: Plan, left: number, y: number): void {
  const toHead = plan.leads === 'head' ? -1 : 1;
  const [tip, foot] = toHead < 0 ? [left, left + 12] : [left + 12, left];
  pen.area(
    [
      [tip, y],
      [foot, y - 5.5],
      [foot, y + 5.5],
    ],
    undefined,
    { widthMm: 0.6 },
  );
}

/** As the sawyer sees it, at the mark with the greatest bevel: the stock against the fence, the kerf at its true angle. */
function drawAlongTheFeed(pen: Pen, plan: Plan, middle: number, top: number, wide: number): void {
  const steepest = steepestOf(plan);
  const [thick, high] = [plan.stock.thicknessMm, plan.frame.sidingMm];
  const scale = Math.min((wide - 24) / thick, 46 / high, 1.2);
  const sign = wayRound(plan).fence === 'left' ? 1 : -1;
  const table = top + 66;
  const from = middle - (sign * thick * scale) / 2;
  const at = (mm: number, heightMm: number): Point => [from + sign * mm * scale, table - heightMm * scale];
  pen.words(`Along the feed, as the sawyer sees it, at mark ${steepest.mark}`, middle, top + 4, {
    sizeMm: 4.5,
    face: 'strong',
    align: 'middle',
    withinMm: wide,
  });
  pen.line(
    [
      [middle - wide / 2, table],
      [middle + wide / 2, table],
    ],
    { widthMm: 0.8 },
  );
  if (plan.rip?.feeds !== 'along a line')
    pen.box(Math.min(from, from - sign * 4), table - 0.7 * high * scale, 4, 0.7 * high * scale, 'black');
  const { upEdge: up, outerIs } = wayRound(plan);
  const isOuterAtFence = outerIs === 'at the fence';
  const atFence = isOuterAtFence ? steepest.outerEdgesMm : steepest.innerEdgesMm;
  const away = isOuterAtFence ? steepest.innerEdgesMm : steepest.outerEdgesMm;
  const [fenceTop, fenceFoot] = [edgeOf(atFence, up), edgeOf(atFence, otherEdge(up))];
  const [awayTop, awayFoot] = [edgeOf(away, up), edgeOf(away, otherEdge(up))];
  pen.area([at(0, 0), at(0, high), at(fenceTop, high), at(fenceFoot, 0)], 'pale', { widthMm: 0.5 });
  pen.area([at(thick, 0), at(thick, high), at(thick - awayTop, high), at(thick - awayFoot, 0)], 'pale', {
    widthMm: 0.5,
  });
  const kerfTop = (fenceTop + thick - awayTop) / 2;
  const kerfFoot = (fenceFoot + thick - awayFoot) / 2;
  const beyond = (share: number): Point => at(kerfFoot + (kerfTop - kerfFoot) * share, high * share);
  pen.line([beyond(-0.06), beyond(1.22)], { widthMm: 0.7 });
  pen.words('blade', beyond(1.2)[0] + 2.5, beyond(1.2)[1] + 1, { sizeMm: 4.5 });
  const outer = isOuterAtFence ? ['OUTER', 'INNER'] : ['INNER', 'OUTER'];
  const [fenceWord = '', awayWord = ''] = outer;
  const beside = table - high * scale * 0.42;
  const [out, off] = [from - sign * 6, at(thick, 0)[0] + sign * 2];
  pen.words(fenceWord, out, beside, { sizeMm: 5.5, face: 'strong', align: sign > 0 ? 'right' : 'left' });
  pen.words(awayWord, off, beside, { sizeMm: 5.5, face: 'strong', align: sign > 0 ? 'left' : 'right' });
  pen.words(`top leans to the ${plan.saw.leans}; upper edge: ${up}`, middle, table + 8.5, {
    sizeMm: 4.5,
    align: 'middle',
    withinMm: wide,
  });
}

/** The halves have changed places: flats to the stack, sawn faces outward. */
function drawInTheFrame(pen: Pen, plan: Plan, middle: number, top: number, wide: number): void {
  const steepest = steepestOf(plan);
  const scale = Math.min((wide - 44) / plan.frame.sidingMm, 56 / tallMm(plan, steepest));
  const title = `In the frame, at mark ${steepest.mark}`;
  pen.words(title, middle, top + 4, { sizeMm: 4.5, face: 'strong', align: 'middle', withinMm: wide });
  pen.words('planking', middle, top + 11, { sizeMm: 4.5, align: 'middle' });
  const drawn = drawFrameSection(pen, plan, steepest, { middleMm: middle, topMm: top + 14, scale });
  const { leftMm: left, rightMm: right, upperMm: upper, lowerMm: lower } = drawn;
  pen.words('OUTER', left - 2, upper - 1, { sizeMm: 5, face: 'strong', align: 'right' });
  pen.words('INNER', left - 2, lower + 5, { sizeMm: 5, face: 'strong', align: 'right' });
  const foot = Math.max(lower + 5, drawn.footMm);
  pen.words('forward', left, foot + 5.5, { sizeMm: 4.5, align: 'middle' });
  pen.words('aft', right, foot + 5.5, { sizeMm: 4.5, align: 'middle' });
  pen.words('inside of the boat', middle, foot + 11, { sizeMm: 4.5, align: 'middle', withinMm: wide });
}

const steepestOf = ({ marks }: Plan) => marks.reduce((a, b) => (Math.abs(b.sawnDeg) > Math.abs(a.sawnDeg) ? b : a));
