/** The rip, the bend and the blade of a plan as text. */
import { aboutFigure, type Length } from './core/lengthText.ts';
import type { Plan } from './core/plan.ts';
import { standStillSentence } from './core/rip/blade.ts';
import {
  allowanceSentence,
  battenSentence,
  bladeSentence,
  endsSentence,
  feedSentence,
  leftSentence,
  twistCureSentences,
} from './core/rip/ripSentences.ts';
import { STRAIGHT_MM } from './core/rip/steer.ts';
import { chalkSentence, handChangeSentence } from './core/rip/whichWay.ts';
import { bendCureSentences, bendSentence, laminationSentences } from './core/stack/bendSentences.ts';
import { MM_PER_INCH } from './core/units.ts';
import { columns, sayFigure, sayLength, signed } from './planFigures.ts';

/** How the stock is fed, laid and marked; where on the straight wedges each mark lies, and what the cut leaves on the inner one. */
export function ripLines(plan: Plan): readonly string[] {
  const { rip, units, marks } = plan;
  if (rip === undefined) return [];
  const length: Length = (mm, how) => sayLength(mm, units, how);
  const batten = battenSentence(rip, length);
  const figure = (mm: number): string => sayFigure(mm, units);
  return [
    feedSentence(rip, plan.frame.sidingMm, length),
    allowanceSentence(rip, length),
    chalkSentence(plan),
    ...rip.handChanges.map((change) => handChangeSentence(change, plan, length)),
    leftSentence(rip, length),
    endsSentence(rip, length),
    ...(batten === undefined ? [] : [batten]),
    ...columns([
      ['', 'along', 'on inner', 'line', 'line', 'inner left', 'inner left'],
      ['mark', 'stock', 'wedge', 'upper', 'lower', 'degrees', `${units}`],
      ...marks.map((at) => [
        `${at.mark}`,
        figure(at.stockMm),
        figure(at.innerStockMm),
        figure(at.lineTopMm),
        figure(at.lineBottomMm),
        signed(at.innerLeftDeg ?? 0, 2),
        units === 'mm' ? signed(at.innerLeftMm ?? 0, 2) : signed((at.innerLeftMm ?? 0) / MM_PER_INCH, 3),
      ]),
    ]),
  ];
}

/** Both wedges at every mark where the frame turns, against the limit for their wood. */
export function bendLines({ bend, units }: Plan): readonly string[] {
  if (bend === undefined) return [];
  const length: Length = (mm, how) => sayLength(mm, units, how);
  const table = columns([
    ['', 'outer', 'wedge', '', 'inner', 'wedge', '', ''],
    ['mark', 'thick', 'radius', 'times', 'thick', 'radius', 'times', ''],
    ...bend.marks.map(({ mark, outer, inner, isTooSharp }) => [
      `${mark}`,
      ...[outer, inner].flatMap(({ thicknessMm, radiusMm, radiusOverThickness }) => [
        sayFigure(thicknessMm, units),
        radiusMm < STRAIGHT_MM ? aboutFigure(radiusMm, units) : 'straight',
        radiusOverThickness.toFixed(0),
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

export function bladeLines({ rip, frame, units }: Plan): readonly string[] {
  if (rip === undefined) return [];
  const length: Length = (mm, how) => sayLength(mm, units, how);
  return [
    bladeSentence(rip, length),
    ...twistCureSentences(rip, length),
    standStillSentence(rip, frame.sidingMm, length),
    ...columns([
      ['after', 'degrees', 'follows', ''],
      ['mark', 'a metre', '', ''],
      ...rip.blade.marks.map(({ mark, degPerM, limitDegPerM, isTooFast }) => [
        `${mark}`,
        degPerM.toFixed(1),
        limitDegPerM.toFixed(1),
        isTooFast ? 'too fast' : '',
      ]),
    ]).map((line) => line.trimEnd()),
  ];
}
