/** The bevel curve with what limits it: the saw's reach, the twist, the feed between the marks. */

import { withTrueMinus } from '../../core/figures/decimals.ts';
import { hundredthsDegText } from '../../core/figures/degrees.ts';
import { standsAgainst } from '../../core/plan/forbids.ts';
import type { Plan } from '../../core/plan/plan.ts';
import { lastRow } from '../../core/rowAt.ts';
import { againstSentences, offsetsSentences } from '../../core/text/offsetsSentences.ts';
import { LIMIT_WORDS } from '../../core/text/routineWords.ts';
import type { Point } from '../draw/page.ts';
import type { Pen } from '../draw/pen.ts';
import type { Sheets } from '../draw/sheets.ts';
import { widthMm } from '../draw/typeface.ts';
import { bevelFigure, callFigure, feedOf, lengthOf, rateOf } from '../paperFigures.ts';
import { drawFeedLimits } from './schedule/feedLimits.ts';

/** Gives the sheet on which what forbids the cut begins in full. */
export function drawCurveSheet(sheets: Sheets, plan: Plan): number {
  const { twist, pace, fairing, notation, saw } = plan;
  sheets.turnPage();
  sheets.heading('The bevel along the frame');
  const top = sheets.take(112);
  drawBevels(sheets.pen, plan, sheets.leftMm, top + 4, sheets.wideMm, 100);
  if (pace.intervals.length > 0) {
    const below = sheets.take(62);
    drawFeedLimits(sheets.pen, plan, sheets.leftMm, below, sheets.wideMm, 58);
  }
  sheets.facts(
    [
      ["Saw's reach", `${withTrueMinus(`${saw.tiltDeg[0]}`)}° to ${withTrueMinus(`${saw.tiltDeg[1]}`)}°`],
      [
        'Twist',
        `at most ${rateOf(twist.maxDegPerM, notation)}; the blade follows ${rateOf(twist.limitDegPerM, notation)}`,
      ],
      ['Feed', `at most ${feedOf(pace.limitMPerMin, notation)}, because of ${LIMIT_WORDS[pace.limitedBy]}`],
      ...(plan.pickedUp.length === 0
        ? []
        : [
            [
              'Fairing',
              `${hundredthsDegText(fairing.rmsDeg)} between what was picked up and the fair curve (root mean square)`,
            ] as const,
          ]),
      ...offsetsSentences(plan).map((sentence) => ['Offsets', sentence] as const),
      ...(plan.against === undefined
        ? []
        : againstSentences(plan.against, plan.girthMm, notation).map((sentence) => ['Offsets', sentence] as const)),
      ...fairing.suspects.map(
        ({ row, girthMm, foundDeg, fairDeg }) =>
          [
            'Left out',
            `row ${row}, girth ${lengthOf(girthMm, notation)}: found ${bevelFigure(foundDeg)}°, fair ${bevelFigure(fairDeg)}°: measure there again`,
          ] as const,
      ),
    ],
    34,
  );
  let fullFrom: number | undefined;
  for (const warning of plan.warnings.filter(({ code }) => code !== 'suspect-bevel')) {
    const { message, mark } = warning;
    const word = standsAgainst(warning) ? 'Do not saw' : 'Beware';
    if (mark === undefined) sheets.facts([[word, message]], 34);
    else sheets.facts([[`${word}, mark ${mark}`, message]], 50);
    // Only when it is drawn is it known whether it began another sheet.
    if (standsAgainst(warning)) fullFrom ??= sheets.sheet;
  }
  return fullFrom ?? sheets.sheet;
}

const LEAST_APART_MM = 2;

/** Heel at the left, head at the right; the rows that were picked up as rings, marks as lines with number and call. */
function drawBevels(pen: Pen, plan: Plan, left: number, top: number, wide: number, high: number): void {
  const { marks, curve, pickedUp, saw, hand, girthMm } = plan;
  const reach = saw.tiltDeg.map((deg) => deg * hand);
  const all = [
    0,
    ...marks.flatMap(({ sawnDeg, errorDeg = 0 }) => [sawnDeg - errorDeg, sawnDeg + errorDeg]),
    ...curve.map(({ bevelDeg }) => bevelDeg),
  ];
  const [low, upper] = [Math.floor(Math.min(...all)) - 1, Math.ceil(Math.max(...all)) + 1];
  const [x0, x1, y0, y1] = [left + 18, left + wide - 5, top + 14, top + high - 10];
  const longMm = Math.max(girthMm, lastRow(marks).girthMm, 1);
  const x = (mm: number): number => x0 + ((x1 - x0) * mm) / longMm;
  const y = (deg: number): number => y1 - ((y1 - y0) * (deg - low)) / (upper - low);
  const step = [1, 2, 5, 10, 20].find((each) => (upper - low) / each <= 8) ?? 30;
  for (let deg = Math.ceil(low / step) * step; deg <= upper; deg += step) {
    pen.line(
      [
        [x0, y(deg)],
        [x1, y(deg)],
      ],
      { widthMm: deg === 0 ? 0.4 : 0.12 },
    );
    pen.words(`${withTrueMinus(`${deg}`)}°`, x0 - 2, y(deg) + 1.4, { sizeMm: 4, align: 'right' });
  }
  for (const deg of reach) {
    if (deg < low || deg > upper) continue;
    pen.line(
      [
        [x0, y(deg)],
        [x1, y(deg)],
      ],
      { widthMm: 0.6, dashMm: [3, 1.5] },
    );
  }
  const isNamed = roomFor(
    marks.map((mark) => x(mark.girthMm)),
    13,
  );
  // Where marks stand so close that their lines would run together, only those with their number.
  const isCrowded = (x1 - x0) / marks.length < LEAST_APART_MM;
  const shown = marks.filter((_, index) => !isCrowded || isNamed[index] === true);
  marks.forEach((mark, index) => {
    if (!shown.includes(mark)) return;
    pen.line(
      [
        [x(mark.girthMm), y0 - 2],
        [x(mark.girthMm), y1],
      ],
      { widthMm: 0.12 },
    );
    if (isNamed[index] !== true) return;
    pen.words(`${mark.mark}`, x(mark.girthMm), y1 + 4.5, { sizeMm: 4.2, face: 'strong', align: 'middle' });
    pen.words(callFigure(mark.callDeg, saw), x(mark.girthMm), y0 - 4, { sizeMm: 4.6, face: 'strong', align: 'middle' });
  });
  if (curve.length > 1)
    pen.line(
      curve.map((at): Point => [x(at.girthMm), y(at.bevelDeg)]),
      { widthMm: 0.8 },
    );
  for (const { girthMm: at, sawnDeg, errorDeg = 0 } of shown)
    if (errorDeg > 0)
      pen.line(
        [
          [x(at), y(sawnDeg - errorDeg)],
          [x(at), y(sawnDeg + errorDeg)],
        ],
        { widthMm: 0.5 },
      );
  for (const { girthMm: at, sawnDeg } of shown) pen.box(x(at) - 0.8, y(sawnDeg) - 0.8, 1.6, 1.6, 'black');
  for (const { girthMm: at, bevelDeg, suspect } of pickedUp)
    if (bevelDeg >= low && bevelDeg <= upper) drawPicked(pen, x(at), y(bevelDeg), suspect);
  const placesOf = (all: readonly { girthMm: number; bevelDeg: number }[]): readonly Point[] =>
    all.map((at): Point => [x(at.girthMm), y(at.bevelDeg)]);
  const drawn = [placesOf(curve), ...pickedUp.map((each) => placesOf([each]))];
  for (const deg of reach) if (deg >= low && deg <= upper) nameReach(pen, drawn, [x0, x1], y(deg));
  pen.words('call', left, y0 - 4, { sizeMm: 4 });
  pen.words('HEEL', x0, y1 + 9.5, { sizeMm: 4.2, face: 'strong' });
  pen.words(`HEAD, girth ${lengthOf(girthMm, plan.notation)}`, x1, y1 + 9.5, {
    sizeMm: 4.2,
    face: 'strong',
    align: 'right',
  });
  pen.words('mark (bevel standing +, under −)', (x0 + x1) / 2, y1 + 9.5, { sizeMm: 4, align: 'middle', withinMm: 70 });
}

const REACH = "the saw's reach";
const REACH_TYPE = { sizeMm: 4 };
/** Over the line and under it, and the air that the words keep from the curve. */
const REACH_BASES_MM = [-1.2, 4.2] as const;
const AIR_MM = 1.8;

/** The name of the line where the curve and what was picked up leave room for it; the thin lines of the marks go behind it. */
function nameReach(
  pen: Pen,
  drawn: readonly (readonly Point[])[],
  [x0, x1]: readonly [number, number],
  lineMm: number,
): void {
  const wide = widthMm(REACH, 'plain', REACH_TYPE.sizeMm);
  const base = REACH_BASES_MM.map((by) => lineMm + by);
  const lefts = Array.from({ length: 40 }, (_, i) => x1 - 1 - wide - ((x1 - x0 - wide - 2) * i) / 39);
  const spots = base.flatMap((baseMm) => lefts.map((leftMm) => ({ leftMm, baseMm })));
  const isFree = ({ leftMm, baseMm }: (typeof spots)[number]): boolean =>
    drawn.every((line) =>
      clearOf(line, [leftMm - AIR_MM, baseMm - 3.2 - AIR_MM], [leftMm + wide + AIR_MM, baseMm + 0.8 + AIR_MM]),
    );
  const spot = spots.find(isFree);
  // Where there is none the dashed line speaks for itself: its degrees stand under the curve, as the saw's reach.
  if (spot === undefined) return;
  pen.box(spot.leftMm - 0.5, spot.baseMm - 3, wide + 1, 3.7, 'white');
  pen.words(REACH, spot.leftMm, spot.baseMm, REACH_TYPE);
}

/** True where a line through these points, from left to right, stays out of the box. */
export function clearOf(line: readonly Point[], [left, top]: Point, [right, foot]: Point): boolean {
  const isOut = ([ax, ay]: Point, [bx, by]: Point): boolean =>
    Math.max(ax, bx) < left || Math.min(ax, bx) > right || Math.max(ay, by) < top || Math.min(ay, by) > foot;
  return line.every((at, index) => isOut(line[index - 1] ?? at, at));
}

function drawPicked(pen: Pen, x: number, y: number, isSuspect: boolean): void {
  if (isSuspect) {
    for (const way of [1, -1])
      pen.line(
        [
          [x - 1.6, y - 1.6 * way],
          [x + 1.6, y + 1.6 * way],
        ],
        { widthMm: 0.5 },
      );
    return;
  }
  const ring = Array.from({ length: 16 }, (_, i): Point => {
    const turn = (i * Math.PI) / 8;
    return [x + 1.3 * Math.cos(turn), y + 1.3 * Math.sin(turn)];
  });
  pen.area(ring, 'white', { widthMm: 0.3 });
}

/** Which labels may stand so that none touches the next: the first and the last, and others where there is room. */
export function roomFor(places: readonly number[], eachMm: number): readonly boolean[] {
  const end = lastRow(places);
  let written = Number.NEGATIVE_INFINITY;
  return places.map((at, index) => {
    const isLast = index === places.length - 1;
    const fits = at - written >= eachMm && (isLast || end - at >= eachMm || index === 0);
    if (fits) written = at;
    return fits;
  });
}
