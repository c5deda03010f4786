/** The first sheet: what speaks against the cut, what is got out, and how the saw is set up for it. */

import type { Plan } from '../../core/plan/plan.ts';
import { DO_NOT_SAW, despiteSentence } from '../../core/text/cureText.ts';
import { squareSentence } from '../../core/text/sawCheckText.ts';
import type { Sheets } from '../draw/sheets.ts';
import { atLeastOf, feedOf, lengthOf } from '../paperFigures.ts';
import { wayRound } from '../wayRound.ts';
import { blockingLines } from './blockingWarnings.ts';
import { callerReactionS, voiceFeedMPerMin } from './schedule/voiceFeed.ts';
import { drawLineTable, firstBevel, lineSentence } from './wood/line.ts';
import { type BeyondMarks, beyondMarks, builtDepthMm } from './wood/onStock.ts';

/** Gives what writes in, when that is known, on which sheet the warnings stand in full. */
export function drawSetUp(sheets: Sheets, plan: Plan): (sheet: number) => void {
  const tellWhere = drawGrave(sheets, plan);
  sheets.heading('Get out and set up');
  sheets.facts([...stockFacts(plan), ...feedFacts(plan), ...sawFacts(plan)], 36);
  drawLineTable(sheets, plan);
  return tellWhere;
}

const LINE_MM = 6;

function drawGrave(sheets: Sheets, plan: Plan): (sheet: number) => void {
  const lines = blockingLines(plan);
  if (lines.length === 0) return () => {};
  sheets.heading(DO_NOT_SAW);
  for (const { line, helps } of lines) {
    sheets.list([line], { sizeMm: 5.6, face: 'strong' });
    if (helps !== undefined) sheets.facts([['', helps]], 6);
  }
  const despite = despiteSentence(plan);
  if (despite !== undefined) sheets.paragraph(despite, { sizeMm: 5, face: 'strong' });
  const top = sheets.take(LINE_MM + 3);
  // The sheet that is filled now; when this is written it is another.
  const pen = sheets.pen;
  const { leftMm } = sheets;
  return (sheet) =>
    void pen.words(`In full, and what helps: from sheet ${sheet} on.`, leftMm + 6, top + LINE_MM - 1, {
      sizeMm: 5,
    });
}

type Facts = readonly (readonly [string, string])[];

function stockFacts(plan: Plan): Facts {
  const { frame, stock, stack, notation, rip } = plan;
  const length = (mm: number): string => lengthOf(mm, notation);
  const [least, most] = builtDepthMm(plan).map(length);
  const beyond = beyondMarks(plan);
  return [
    [
      'Frame',
      `${frame.label}, ${frame.side}, moulded face ${frame.mouldedFace}; siding ${length(frame.sidingMm)}, moulding ${length(frame.mouldingMm)}`,
    ],
    ['Way round', `The ${plan.leads} leads, ${wayRound(plan).upEdge} edge up: see the sheet with the drawings.`],
    ...(rip === undefined
      ? []
      : [
          [
            'Get out, rough',
            `${[rip.roughThicknessMm, stock.widthMm, stock.lengthMm].map((mm) => atLeastOf(mm, notation)).join(' x ')} (thickness x width x length)`,
          ] as const,
        ]),
    [
      'Stock, dressed',
      `${atLeastOf(stock.thicknessMm, notation)} x ${length(frame.sidingMm)} (thickness x siding)${rip === undefined ? '' : `, ${length(rip.cleaningUpMm)} off each face and edge`}; all lines here are for this size.`,
    ],
    ...(beyond === undefined ? [] : [['Ends', endsSentence(plan, beyond)] as const]),
    ...netFacts(plan),
    [
      'The stack',
      `${stack.plies} laminations of ${length(stack.laminationMm)}, ${stack.species}, between the wedges: ${least === most ? most : `${least} to ${most}`} deep as built, of ${length(frame.mouldingMm)} moulding.`,
    ],
  ];
}

/** "lies" stands between a mark's number and the length: in inches both are figures. */
function endsSentence({ leads, marks, notation }: Plan, { heelMm, headMm }: BeyondMarks): string {
  const ends = [
    { end: 'heel', mark: marks[0]?.mark ?? 1, mm: heelMm },
    { end: 'head', mark: marks.at(-1)?.mark ?? 1, mm: headMm },
  ];
  const [first, last] = (leads === 'head' ? ends.toReversed() : ends).map(
    ({ end, mark, mm }) => [`mark ${mark}`, `lies ${lengthOf(mm, notation)} from the ${end} end`] as const,
  );
  return `M${first?.[0].slice(1)} comes first and ${first?.[1]}; ${last?.join(' ')}.`;
}

function netFacts({ rip, notation }: Plan): Facts {
  if (rip === undefined) return [];
  const length = (mm: number): string => lengthOf(mm, notation);
  const net = ([name, { lengthMm, heelMm, headMm }]: readonly [string, typeof rip.ends.outer]): string =>
    `${name} wedge ${length(lengthMm)} (${length(heelMm)} to ${length(headMm)} from mark 1)`;
  const both = ([['outer', rip.ends.outer] as const, ['inner', rip.ends.inner] as const] as const).map(net).join('; ');
  return [['Net lengths', `${both}. Cut to length only when bent and offered up.`]];
}

function sawFacts(plan: Plan): Facts {
  const { sawTruth, rip } = plan;
  const line = lineSentence(plan);
  const first = firstBevel(plan);
  return [
    ...(line === '' ? [] : [[rip?.feeds === 'along a line' ? 'The line' : 'Fence', line] as const]),
    ...(sawTruth === undefined ? [] : [['Square at zero', squareSentence(sawTruth)] as const]),
    ...(first === '' ? [] : [['First bevel', first] as const]),
  ];
}

function feedFacts(plan: Plan): Facts {
  const { pace, crew, notation } = plan;
  const against = (limitMPerMin: number): string =>
    crew.feedMPerMin > limitMPerMin ? `: slower than the crew's own ${feedOf(crew.feedMPerMin, notation)}` : '';
  const byVoice = voiceFeedMPerMin(plan);
  return [
    ['Feed at most', `${feedOf(pace.limitMPerMin, notation)} where the program calls${against(pace.limitMPerMin)}.`],
    [
      'By voice',
      `At most ${feedOf(byVoice, notation)}${against(byVoice)}. The caller too needs time to see the mark and begin: assumed to be ${callerReactionS(plan)} s, as for the tilt hand.`,
    ],
  ];
}
