/** The rip, the bend and the blade of a plan as text. */

import { signedDegFigure } from '../core/figures/degrees.ts';
import { rateFigure, rateUnit } from '../core/figures/feeds.ts';
import { aboutFigure, fineFigure, lengthFigure, lengthIn, UNIT } from '../core/figures/lengths.ts';
import { wholeFigure } from '../core/figures/shares.ts';
import type { Plan } from '../core/plan/plan.ts';
import { STRAIGHT_MM } from '../core/rip/lineWander.ts';
import { standStillSentence } from '../core/saw/blade.ts';
import { bendCureSentences, bendSentence, laminationSentences } from '../core/text/bendSentences.ts';
import { chalkSentence, handChangeSentence } from '../core/text/leadingEndText.ts';
import {
  allowanceSentence,
  battenSentence,
  bladeSentence,
  endsSentence,
  feedSentence,
  knowsEdge,
  leftSentence,
  twistCureSentences,
} from '../core/text/ripSentences.ts';
import { columns } from './columns.ts';

/** How the stock is fed, laid and marked; where on the straight wedges each mark lies, and what the cut leaves on the inner one. */
export function ripLines(plan: Plan): readonly string[] {
  const { rip, notation, marks } = plan;
  if (rip === undefined) return [];
  const length = lengthIn(notation);
  const batten = battenSentence(rip, length);
  const figure = (mm: number): string => lengthFigure(mm, notation);
  return [
    feedSentence(rip, plan.frame.sidingMm, length),
    allowanceSentence(rip, length),
    chalkSentence(plan),
    ...rip.handChanges.map((change) => handChangeSentence(change, plan, length)),
    leftSentence(rip, length, knowsEdge(plan.marks)),
    endsSentence(rip, length),
    ...(batten === undefined ? [] : [batten]),
    ...columns([
      ['', 'along', 'on inner', 'line', 'line', 'inner left', 'inner left'],
      ['mark', 'stock', 'wedge', 'upper', 'lower', 'degrees', UNIT[notation]],
      ...marks.map((at) => [
        `${at.mark}`,
        figure(at.stockMm),
        figure(at.innerStockMm),
        figure(at.lineTopMm),
        figure(at.lineBottomMm),
        signedDegFigure(at.innerLeftDeg ?? 0, 2),
        fineFigure(at.innerLeftMm ?? 0, notation),
      ]),
    ]),
  ];
}

/** Both wedges at every mark where the frame turns, against the limit for their wood. */
export function bendLines({ bend, notation }: Plan): readonly string[] {
  if (bend === undefined) return [];
  const length = lengthIn(notation);
  const table = columns([
    ['', 'outer', 'wedge', '', 'inner', 'wedge', '', ''],
    ['mark', 'thick', 'radius', 'times', 'thick', 'radius', 'times', ''],
    ...bend.marks.map(({ mark, outer, inner, isTooSharp }) => [
      `${mark}`,
      ...[outer, inner].flatMap(({ thicknessMm, radiusMm, radiusOverThickness }) => [
        lengthFigure(thicknessMm, notation),
        radiusMm < STRAIGHT_MM ? aboutFigure(radiusMm, notation) : 'straight',
        wholeFigure(radiusOverThickness),
      ]),
      isTooSharp ? 'too sharp' : '',
    ]),
  ]);
  return [
    bendSentence(bend, length),
    ...laminationSentences(bend, length),
    ...bendCureSentences(bend, length),
    ...(bend.marks.length === 0 ? [] : table.map((line) => line.trimEnd())),
  ];
}

export function bladeLines({ rip, frame, notation }: Plan): readonly string[] {
  if (rip === undefined) return [];
  const length = lengthIn(notation);
  return [
    bladeSentence(rip, notation),
    ...twistCureSentences(rip, length),
    standStillSentence(rip, frame.sidingMm, length),
    ...columns([
      ['after', 'degrees', 'follows', ''],
      ['mark', rateUnit(notation), '', ''],
      ...rip.blade.marks.map(({ mark, degPerM, limitDegPerM, isTooFast }) => [
        `${mark}`,
        rateFigure(degPerM, notation),
        rateFigure(limitDegPerM, notation),
        isTooFast ? 'too fast' : '',
      ]),
    ]).map((line) => line.trimEnd()),
  ];
}
