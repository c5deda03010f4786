/** The feed that each interval between two marks allows, beside the crew's own. */

import { feedFigure, feedUnit } from '../../../core/figures/feeds.ts';
import type { Plan } from '../../../core/plan/plan.ts';
import { lastRow, rowAt } from '../../../core/rowAt.ts';
import { LIMIT_WORDS } from '../../../core/text/routineWords.ts';
import type { Pen } from '../../draw/pen.ts';
import { widthMm } from '../../draw/typeface.ts';

/** The limit of each interval as a step, the crew's own feed dashed across them. */
export function drawFeedLimits(pen: Pen, plan: Plan, left: number, top: number, wide: number, high: number): void {
  const { pace, marks, crew, notation } = plan;
  const most = 2 * Math.max(crew.feedMPerMin, pace.limitMPerMin);
  const longMm = Math.max(plan.girthMm, lastRow(marks).girthMm, 1);
  const [x0, x1, y0, y1] = [left + 18, left + wide - 5, top + 11, top + high - 4];
  const x = (mark: number): number => x0 + ((x1 - x0) * rowAt(marks, mark - 1).girthMm) / longMm;
  const y = (mPerMin: number): number => y1 - ((y1 - y0) * Math.min(mPerMin, most)) / most;
  pen.words(`Feed at most between the marks, mark by mark (${feedUnit(notation)})`, left, top + 4.5, {
    sizeMm: 5,
    face: 'strong',
    withinMm: wide,
  });
  pen.words(limitNamed(plan), left, top + 9.2, { sizeMm: 4.4, withinMm: wide });
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
  const fromHeel = ends.map((_, index) => index).toSorted((a, b) => rowAt(middles, a) - rowAt(middles, b));
  const limitAt = (index: number): number => rowAt(pace.intervals, index).limitMPerMin;
  for (const index of fromHeel) {
    const [from, to] = ends[index] ?? [1, 1];
    const limit = limitAt(index);
    pen.box(x(from), y(limit), x(to) - x(from), y1 - y(limit), 'pale', { widthMm: 0.2 });
  }
  // All bars first: one would cover part of the figure before it. Half a figure's width, clear of the words at the left.
  let freeFrom = x0 + 6;
  for (const index of fromHeel) {
    const middle = rowAt(middles, index);
    if (middle < freeFrom) continue;
    const figure = feedFigure(limitAt(index), notation);
    const wideMm = widthMm(figure, 'strong', FIGURE_MM);
    pen.box(middle - wideMm / 2 - 0.4, y1 - 2 - 3, wideMm + 0.8, 3.4, 'pale');
    pen.words(figure, middle, y1 - 2, { sizeMm: FIGURE_MM, face: 'strong', align: 'middle' });
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
  pen.words(feedFigure(crew.feedMPerMin, notation), x0 - 1, y(crew.feedMPerMin) + 5.5, {
    sizeMm: FIGURE_MM,
    face: 'strong',
    align: 'right',
    withinMm: 17,
  });
}

/** Where it is slowest, and what makes it so. */
function limitNamed({ pace, notation }: Plan): string {
  const slowest = pace.intervals.reduce((a, b) => (b.limitMPerMin < a.limitMPerMin ? b : a));
  const [from, to] = [slowest.fromMark, slowest.toMark].toSorted((a, b) => a - b);
  return `The limit is ${feedFigure(pace.limitMPerMin, notation)}, between marks ${from} and ${to}, because of ${LIMIT_WORDS[pace.limitedBy]}`;
}

const FIGURE_MM = 4;
