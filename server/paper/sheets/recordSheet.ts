/** The record of a run on paper: what was wanted, what was called, what was had, and what went wrong. */

import { withTrueMinus } from '../../core/figures/decimals.ts';
import { hundredthsDegText } from '../../core/figures/degrees.ts';
import { unitInHead } from '../../core/figures/lengths.ts';
import { madeInSpiteOf } from '../../core/plan/forbids.ts';
import type { Plan } from '../../core/plan/plan.ts';
import { lastRow } from '../../core/rowAt.ts';
import { linesText } from '../../core/run/on/damaged.ts';
import { type Debrief, stretchesOf } from '../../core/run/view/debrief.ts';
import { placeText } from '../../core/run/view/placeText.ts';
import { despiteSentence } from '../../core/text/cureText.ts';
import { dayOf, timeOf } from '../../wire/kept/dayAndTime.ts';
import type { JournalLine } from '../../wire/kept/journalLine.ts';
import type { RunRecord } from '../../wire/request/papers.ts';
import type { Point } from '../draw/page.ts';
import type { Sheets } from '../draw/sheets.ts';
import { bevelFigure, callFigure, figureOf, lengthOf } from '../paperFigures.ts';
import { said } from './blockingWarnings.ts';
import { roomFor } from './curve.ts';
import { inRuns, meanFeedText } from './recordWords.ts';
import { drawTable } from './table.ts';

export function drawRecord(sheets: Sheets, plan: Plan, { view, debrief, lines }: RunRecord): void {
  const { notation } = plan;
  const { rmsErrorDeg, worst, measured } = debrief;
  sheets.facts(
    [
      [
        'Run',
        `${view.run}, ${dayOf(view.madeAtMs)} at ${timeOf(view.madeAtMs)}; ${view.mode}, ${view.routine}, ${view.feed === 'simulated' ? 'simulated feed' : 'own feed'}`,
      ],
      ...recordFacts(view),
      [
        'State',
        `${view.state}. ${placeText(view)}; bevels not called: ${lines.filter(({ kind }) => kind === 'missed').length}`,
      ],
      ...despiteFacts(plan),
      ['Feed', meanFeedText(plan, { debrief, lines })],
      [
        'Tilt',
        !measured
          ? 'not measured in this run, so how far off it was is not known'
          : rmsErrorDeg === null || worst === null
            ? 'measured at the marks only: nothing counted the travel'
            : `off by ${hundredthsDegText(rmsErrorDeg)} root mean square; at worst ${bevelFigure(worst.errorDeg)}° at ${lengthOf(worst.positionMm, notation)}`,
      ],
    ],
    24,
  );
  if (debrief.trace.length > 1) drawTilt(sheets, debrief);
  const [numberMm, alongMm, clockMm] = [16, 26, 26];
  const figureMm = (sheets.wideMm - numberMm - alongMm - 2 * clockMm) / 4;
  const column = (head: string, wideMm: number) => ({ head, wideMm, align: 'right' as const, sizeMm: 5 });
  sheets.paragraph(
    'Wanted, Tilt then and Off by are true tilts. Call is what the readout was to show for it; it was said at the time under Called.',
    { sizeMm: 4 },
  );
  drawTable(
    sheets,
    [
      { head: 'Mark', wideMm: numberMm, align: 'middle', sizeMm: 6, face: 'strong', isBoxed: true },
      column(`Along${unitInHead(notation)}`, alongMm),
      column('Wanted', figureMm),
      column('Call', figureMm),
      column('Called', clockMm),
      column('At blade', clockMm),
      column('Tilt then', figureMm),
      column('Off by', figureMm),
    ],
    debrief.marks.map(({ mark, positionMm, wantedDeg, calledAtMs, reachedAtMs, hadDeg }) => [
      `${mark}`,
      figureOf(positionMm, notation),
      withTrueMinus(hundredthsDegText(wantedDeg)),
      callOf(plan, mark),
      calledAtMs === null ? '–' : timeOf(calledAtMs),
      reachedAtMs === null ? '–' : timeOf(reachedAtMs),
      hadDeg === null ? '–' : withTrueMinus(hundredthsDegText(hadDeg)),
      hadDeg === null ? '–' : `${bevelFigure(hadDeg - wantedDeg)}°`,
    ]),
  );
  if (lines.length === 0) return;
  sheets.topMm += 3;
  // A heading at the foot of a page, and what it heads on the next, is overlooked.
  if (sheets.leftOverMm() < WITH_HEADING_MM) sheets.turnPage();
  sheets.heading('What happened');
  sheets.facts(
    inRuns(lines).map(([line, what]) => [timeOf(line.atMs), what ?? whatOf(line)] as const),
    24,
  );
}

function recordFacts({ record }: RunRecord['view']): readonly (readonly [string, string])[] {
  if (record.damage !== null) return [['Damaged', record.damage.message]];
  return record.isChecked ? [] : [['Record', 'made before checksums: a change of it would not be noticed']];
}

/** What the cut was forbidden for when the run was made all the same, and why it was. */
function despiteFacts(plan: Plan): readonly (readonly [string, string])[] {
  const sentence = despiteSentence(plan);
  if (sentence === undefined) return [];
  const lines = said(plan, madeInSpiteOf(plan)).map(({ line }) => line);
  return [['Forbidden', `${lines.join(' ')} ${sentence}`]];
}

function callOf({ marks, saw }: Plan, wanted: number): string {
  const found = marks.find(({ mark }) => mark === wanted);
  return found === undefined ? '–' : `${callFigure(found.callDeg, saw)}°`;
}

function whatOf(line: JournalLine): string {
  switch (line.kind) {
    case 'started':
      return [
        line.withoutSound ? 'started without sound' : 'started',
        ...(line.square === 'not confirmed' ? ['square at zero not confirmed'] : []),
      ].join(', ');
    case 'squared':
      return `squared at zero by the test block, the readout at ${line.seenDeg}°`;
    case 'stopped':
      return line.by === 'page' ? 'stop feed, from a page' : 'found standing after a restart';
    case 'pressed':
      return line.gesture === 'stop' ? 'stop feed, by the pedal' : `pedal: ${line.gesture}`;
    case 'resumed':
      return line.withoutSound === true ? 'resumed without sound' : 'resumed';
    case 'signal-lost':
      return `signal lost: ${line.detail}`;
    case 'damaged':
      return line.toLine === null
        ? `the record was found damaged from line ${line.fromLine} on`
        : `the record was found damaged, ${linesText(line.fromLine, line.toLine)}`;
    case 'placed':
      return line.mark === 0 ? 'a person said: before the first mark' : `a person said: mark ${line.mark} at the blade`;
    case 'missed':
      return `mark ${line.mark} was not called: ${line.reason}`;
    case 'told':
      return line.message;
    case 'unplayed':
      return `a call was not played: ${line.reason}`;
    default:
      return line.kind;
  }
}

const WITH_HEADING_MM = 26;

/** Wanted thin, had thick, along the stock. */
function drawTilt(sheets: Sheets, { trace, marks }: Debrief): void {
  const high = 70;
  const top = sheets.take(high + 4);
  const { pen, leftMm, wideMm } = sheets;
  const stretches = stretchesOf(trace);
  const tilts = trace.flatMap(({ wantedDeg, hadDeg }) => [wantedDeg, hadDeg]);
  const [low, upper] = [Math.floor(Math.min(...tilts)), Math.ceil(Math.max(...tilts)) + 0.5];
  const longMm = Math.max(lastRow(marks).positionMm, ...trace.map(({ positionMm }) => positionMm), 1);
  const [x0, x1, y0, y1] = [leftMm + 12, leftMm + wideMm - 2, top + 9, top + high - 6];
  const x = (mm: number): number => x0 + ((x1 - x0) * Math.max(0, mm)) / longMm;
  const y = (deg: number): number => y1 - ((y1 - y0) * (deg - low)) / (upper - low);
  const step = [1, 2, 5, 10, 20].find((each) => (upper - low) / each <= 6) ?? 30;
  for (let deg = Math.ceil(low / step) * step; deg <= upper; deg += step) {
    pen.line(
      [
        [x0, y(deg)],
        [x1, y(deg)],
      ],
      { widthMm: 0.12 },
    );
    pen.words(`${withTrueMinus(`${deg}`)}°`, x0 - 2, y(deg) + 1.4, { sizeMm: 4, align: 'right' });
  }
  const isNamed = roomFor(
    marks.map(({ positionMm }) => x(positionMm)),
    9,
  );
  marks.forEach(({ mark, positionMm }, index) => {
    pen.line(
      [
        [x(positionMm), y0],
        [x(positionMm), y1],
      ],
      { widthMm: 0.12 },
    );
    if (isNamed[index] === true)
      pen.words(`${mark}`, x(positionMm), y1 + 5, { sizeMm: 4, face: 'strong', align: 'middle' });
  });
  for (const stretch of stretches) {
    pen.line(
      stretch.map((at): Point => [x(at.positionMm), y(at.wantedDeg)]),
      { widthMm: 0.4, dashMm: [2, 1] },
    );
    pen.line(
      stretch.map((at): Point => [x(at.positionMm), y(at.hadDeg)]),
      { widthMm: 0.7 },
    );
  }
  pen.words('Tilt along the stock: as it was strong, as wanted dashed', leftMm, top + 5, {
    sizeMm: 4.5,
    face: 'strong',
  });
}
