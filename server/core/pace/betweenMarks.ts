/** How far the bevel stands off an even turn from mark to mark: what marks too far apart leave out, however well each is hit. */

import { hundredthsDegText, tenthsDegText } from '../figures/degrees.ts';
import { type Length, lengthText } from '../figures/lengths.ts';
import type { Job } from '../job.ts';
import { interpolate } from '../numeric/interpolate.ts';
import type { Plan } from '../plan/plan.ts';
import type { PlannedMark } from '../rip/plannedMark.ts';
import type { RipPlace } from '../rip/rip.ts';
import { rowAt } from '../rowAt.ts';
import type { Warning } from '../warning.ts';
import { fewestMarks, type GridPlace } from './fewestMarks.ts';

type BetweenMarks = NonNullable<Plan['betweenMarks']>;

/** From here on it is worth a warning: the step of a usual readout. Our own choice, no source. */
const WARNED_FROM_DEG = 0.5;

/** The worst over the whole stock, and at which girth; 0 at the first mark where every place is right. `places` from heel to head. */
export function betweenMarksOf(
  places: readonly RipPlace[],
  marks: readonly Pick<PlannedMark, 'stockMm' | 'sawnDeg' | 'girthMm'>[],
): BetweenMarks {
  const along = marks.map(({ stockMm }) => stockMm);
  const bevels = marks.map(({ sawnDeg }) => sawnDeg);
  const worst = { worstDeg: 0, girthMm: rowAt(marks, 0).girthMm };
  for (const { stockMm, sawnDeg, girthMm } of places) {
    const offDeg = Math.abs(sawnDeg - interpolate(along, bevels, stockMm));
    if (offDeg > worst.worstDeg) Object.assign(worst, { worstDeg: offDeg, girthMm });
  }
  return worst;
}

export const betweenMarksSentence = ({ worstDeg, girthMm }: BetweenMarks, length: Length): string =>
  `the bevel stands at most ${hundredthsDegText(worstDeg)} off an even turn from mark to mark, at girth ${length(girthMm)}`;

/** Tolerances of the job that are tried, the readout's rounding of each call counted. */
const TRIED_DEG = [0.5, 0.4, 0.3, 0.25, 0.2] as const;

/** At most one, with the marks that keep within half a degree, tried on the same places; `grid` is asked only where there is a warning. */
export function betweenMarksWarnings(
  job: Job,
  between: BetweenMarks,
  marks: readonly PlannedMark[],
  places: readonly RipPlace[],
  grid: () => readonly GridPlace[],
): Warning[] {
  if (between.worstDeg < WARNED_FROM_DEG) return [];
  const after = marks.findLast(({ girthMm }) => girthMm <= between.girthMm) ?? marks[0];
  const mark = after?.mark ?? 1;
  const found = closerMarks(places, grid());
  const helps =
    found === undefined
      ? 'Closer marks help.'
      : `Closer marks help: ${found.count} of them, placed by "marks": { "tolerance": ${found.toleranceDeg} }, keep it within ${WARNED_FROM_DEG}°.`;
  const message = `Between marks ${mark} and ${mark + 1}, at girth ${lengthText(between.girthMm, job.notation)}, the bevel stands ${tenthsDegText(between.worstDeg)} off an even turn from mark to mark. ${helps}`;
  return [{ code: 'between-marks', message, mark }];
}

/** The loosest tolerance whose marks are then not warned of. */
function closerMarks(places: readonly RipPlace[], grid: readonly GridPlace[]) {
  for (const toleranceDeg of TRIED_DEG) {
    const chosen = fewestMarks(grid, toleranceDeg);
    if (chosen === undefined) return undefined;
    const marks = chosen.flatMap((index) => places[index] ?? []);
    if (betweenMarksOf(places, marks).worstDeg < WARNED_FROM_DEG) return { toleranceDeg, count: marks.length };
  }
  return undefined;
}
