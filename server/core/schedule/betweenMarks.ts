/** How far the bevel stands off an even turn from mark to mark: what marks too far apart leave out, however well each is hit. */

import { type Length, lengthText } from '../figures/lengths.ts';
import type { Job } from '../job.ts';
import { interpolate } from '../numeric/interpolate.ts';
import type { Plan, PlannedMark, Warning } from '../plan.ts';
import type { RipPlace } from '../rip/rip.ts';
import { fewestMarks, type GridPlace } from './fewestMarks.ts';

export type BetweenMarks = NonNullable<Plan['betweenMarks']>;

/** From here on it is worth a warning: the step of a usual readout. Our own choice, no source. */
const WARNED_FROM_DEG = 0.5;

/** The worst over the whole stock, and at which girth; 0 at the first mark where every place is right. `places` from heel to head. */
export function betweenMarksOf(places: readonly RipPlace[], marks: readonly PlannedMark[]): BetweenMarks {
  const along = marks.map(({ stockMm }) => stockMm);
  const bevels = marks.map(({ sawnDeg }) => sawnDeg);
  const worst = { worstDeg: 0, girthMm: marks[0]?.girthMm ?? 0 };
  for (const { stockMm, sawnDeg, girthMm } of places) {
    const offDeg = Math.abs(sawnDeg - interpolate(along, bevels, stockMm));
    if (offDeg > worst.worstDeg) Object.assign(worst, { worstDeg: offDeg, girthMm });
  }
  return worst;
}

export const betweenMarksSentence = ({ worstDeg, girthMm }: BetweenMarks, length: Length): string =>
  `the bevel stands at most ${worstDeg.toFixed(2)}° off an even turn from mark to mark, at girth ${length(girthMm)}`;

/** At most one, with the marks that keep within half a degree, tried on the same grid; `grid` is asked only where there is a warning. */
export function betweenMarksWarnings(
  job: Job,
  between: BetweenMarks,
  marks: readonly PlannedMark[],
  grid: () => readonly GridPlace[],
): Warning[] {
  if (between.worstDeg < WARNED_FROM_DEG) return [];
  const after = marks.findLast(({ girthMm }) => girthMm <= between.girthMm) ?? marks[0];
  const mark = after?.mark ?? 1;
  const fewest = fewestMarks(grid(), WARNED_FROM_DEG);
  const helps =
    fewest === undefined
      ? 'Closer marks help.'
      : `Closer marks help: ${fewest.length} of them, placed by "marks": { "tolerance": ${WARNED_FROM_DEG} }, keep it within ${WARNED_FROM_DEG}°.`;
  const message = `Between marks ${mark} and ${mark + 1}, at girth ${lengthText(between.girthMm, job.notation)}, the bevel stands ${between.worstDeg.toFixed(1)}° off an even turn from mark to mark. ${helps}`;
  return [{ code: 'between-marks', message, mark }];
}
