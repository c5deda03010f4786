/** The bevel curve with what limits it: the saw's reach, the twist, the feed between the marks. */
import { againstSentences, offsetsSentences } from '../../core/frame/offsetsSentences.ts';
import type { Plan } from '../../core/plan.ts';
import type { Point } from '../draw/page.ts';
import type { Pen } from '../draw/pen.ts';
import type { Sheets } from '../draw/sheets.ts';
import { bevelFigure, callFigure, feedOf, lengthOf, minus, rateOf } from '../lengths.ts';

const BECAUSE: Readonly<Record<Plan['pace']['limitedBy'], string>> = {
  words: 'the words of the call',
  reaction: "the tilt hand's reaction",
  wheel: 'the turning of the wheel',
  twist: 'the twist that the blade follows',
  saw: 'the saw',
};

export function drawCurveSheet(sheets: Sheets, plan: Plan): void {
  const { twist, pace, fairing, units, saw } = plan;
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
      ["Saw's reach", `${minus(`${saw.tiltDeg[0]}`)}° to ${minus(`${saw.tiltDeg[1]}`)}°`],
      ['Twist', `at most ${rateOf(twist.maxDegPerM, units)}; the blade follows ${rateOf(twist.limitDegPerM, units)}`],
      ['Feed', `at most ${feedOf(pace.limitMPerMin, units)}, because of ${BECAUSE[pace.limitedBy]}`],
      ...(plan.pickedUp.length === 0
        ? []
        : [
            [
              'Fairing',
              `${fairing.rmsDeg.toFixed(2)}° between what was picked up and the fair curve (root mean square)`,
            ] as const,
          ]),
      ...offsetsSentences(plan).map((sentence) => ['Offsets', sentence] as const),
      ...(plan.against === undefined
        ? []
        : againstSentences(plan.against, plan.girthMm, units).map((sentence) => ['Offsets', sentence] as const)),
      ...fairing.suspects.map(
        ({ row, girthMm, foundDeg, fairDeg }) =>
          [
            'Left out',
            `row ${row}, girth ${lengthOf(girthMm, units)}: found ${bevelFigure(foundDeg)}°, fair ${bevelFigure(fairDeg)}°: measure there again`,
          ] as const,
      ),
    ],
    34,
  );
  for (const { message, mark } of plan.warnings.filter(({ code }) => code !== 'suspect-bevel'))
    sheets.facts([[mark === undefined ? 'Beware' : `At mark ${mark}`, message]], 34);
}

/** The limit of each interval as a step, the crew's own feed dashed across them. */
function drawFeedLimits(pen: Pen, plan: Plan, left: number, top: number, wide: number, high: number): void {
  const { pace, marks, crew, units } = plan;
  const most = 2 * Math.max(crew.feedMPerMin, pace.limitMPerMin);
  const longMm = Math.max(plan.girthMm, marks.at(-1)?.girthMm ?? 0, 1);
  const [x0, x1, y0, y1] = [left + 18, left + wide - 5, top + 10, top + high - 4];
  const x = (mark: number): number => x0 + ((x1 - x0) * (marks[mark - 1]?.girthMm ?? 0)) / longMm;
  const y = (mPerMin: number): number => y1 - ((y1 - y0) * Math.min(mPerMin, most)) / most;
  pen.words(`Feed at most between the marks, mark by mark (${units === 'mm' ? 'm/min' : 'ft/min'})`, left, top + 5, {
    sizeMm: 5,
    face: 'strong',
    withinMm: wide,
  });
  pen.line(
    [
      [x0, y1],
      [x1, y1],
    ],
    { widthMm: 0.4 },
  );
  const ends = pace.intervals.map(
    ({ fromMark, toMark }) => [Math.min(fromMark, toMark), Math.max(fromMark, toMark)] as const,
  );
  const middles = ends.map(([from, to]) => (x(from) + x(to)) / 2);
  const fromHeel = ends.map((_, index) => index).toSorted((a, b) => (middles[a] ?? 0) - (middles[b] ?? 0));
  // Half a figure's width, so that the first does not stand on the words at the left.
  let freeFrom = x0 + 6;
  for (const index of fromHeel) {
    const [from, to] = ends[index] ?? [1, 1];
    const limit = pace.intervals[index]?.limitMPerMin ?? 0;
    pen.box(x(from), y(limit), x(to) - x(from), y1 - y(limit), 'pale', { widthMm: 0.2 });
    const middle = middles[index] ?? 0;
    if (middle < freeFrom) continue;
    pen.words(feedOf(limit, units).split(' ')[0] ?? '', middle, y1 - 2, { sizeMm: 4, face: 'strong', align: 'middle' });
    freeFrom = middle + 12;
  }
  pen.line(
    [
      [x0, y(crew.feedMPerMin)],
      [x1, y(crew.feedMPerMin)],
    ],
    { widthMm: 0.6, dashMm: [3, 1.5] },
  );
  pen.words(`crew's feed`, x0 - 1, y(crew.feedMPerMin) + 1.3, { sizeMm: 4, align: 'right', withinMm: 17 });
}

const LEAST_APART_MM = 2;

/** Heel at the left, head at the right; the rows that were picked up as rings, marks as lines with number and call. */
function drawBevels(pen: Pen, plan: Plan, left: number, top: number, wide: number, high: number): void {
  const { marks, curve, pickedUp, saw, hand, girthMm } = plan;
  const reach = saw.tiltDeg.map((deg) => deg * hand);
  const all = [0, ...marks.map(({ sawnDeg }) => sawnDeg), ...curve.map(({ bevelDeg }) => bevelDeg)];
  const [low, upper] = [Math.floor(Math.min(...all)) - 1, Math.ceil(Math.max(...all)) + 1];
  const [x0, x1, y0, y1] = [left + 18, left + wide - 5, top + 14, top + high - 10];
  const longMm = Math.max(girthMm, marks.at(-1)?.girthMm ?? 0, 1);
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
    pen.words(`${minus(`${deg}`)}°`, x0 - 2, y(deg) + 1.4, { sizeMm: 4, align: 'right' });
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
    pen.words("the saw's reach", x1 - 1, y(deg) - 1, { sizeMm: 4, align: 'right' });
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
  for (const { girthMm: at, sawnDeg } of shown) pen.box(x(at) - 0.8, y(sawnDeg) - 0.8, 1.6, 1.6, 'black');
  for (const { girthMm: at, bevelDeg, suspect } of pickedUp)
    if (bevelDeg >= low && bevelDeg <= upper) drawPicked(pen, x(at), y(bevelDeg), suspect);
  pen.words('call', left, y0 - 4, { sizeMm: 4 });
  pen.words('HEEL', x0, y1 + 9.5, { sizeMm: 4.2, face: 'strong' });
  pen.words(`HEAD, girth ${lengthOf(girthMm, plan.units)}`, x1, y1 + 9.5, {
    sizeMm: 4.2,
    face: 'strong',
    align: 'right',
  });
  pen.words('mark (bevel standing +, under −)', (x0 + x1) / 2, y1 + 9.5, { sizeMm: 4, align: 'middle', withinMm: 70 });
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
  const end = places.at(-1) ?? 0;
  let written = Number.NEGATIVE_INFINITY;
  return places.map((at, index) => {
    const isLast = index === places.length - 1;
    const fits = at - written >= eachMm && (isLast || end - at >= eachMm || index === 0);
    if (fits) written = at;
    return fits;
  });
}
