/** What a plan says of the table of offsets, for `planText.ts`. */

import { fineFigure, fineText, lengthFigure, UNIT } from '../core/figures/lengths.ts';
import type { Plan } from '../core/plan/plan.ts';
import { againstSentences, movedMm, offsetsSentences } from '../core/text/offsetsSentences.ts';
import { columns, signed } from './planFigures.ts';

/** As many of the points that fairing moved as a person looks up; JSON has them all. */
const MOST_MOVED = 8;

export function offsetsLines(plan: Plan): readonly string[] {
  const { offsets, notation, marks } = plan;
  if (offsets === undefined) return [];
  const moved = offsets.fairing.moved.toSorted((a, b) => movedMm(b) - movedMm(a)).slice(0, MOST_MOVED);
  return [
    ...offsetsSentences(plan),
    ...columns([
      ['', 'tangent', 'chord', 'hollow'],
      ['mark', 'at edge', 'as sawn', UNIT[notation]],
      ...marks.map(({ mark, bevelDeg, sawnDeg, hollowMm = 0 }) => [
        `${mark}`,
        signed(bevelDeg, 2),
        signed(sawnDeg, 2),
        fineFigure(hollowMm, notation),
      ]),
    ]),
    ...(moved.length === 0 ? [] : ['Moved most by fairing:']),
    ...moved.map(
      (point) =>
        `  station ${point.station}, row ${point.row}, column ${point.column}: by ${fineText(movedMm(point), notation)}`,
    ),
  ];
}

/** The bevels picked up beside those of the offsets. */
export function againstLines({ against, girthMm, notation }: Plan): readonly string[] {
  if (against === undefined) return [];
  return [
    ...againstSentences(against, girthMm, notation),
    ...columns([
      ['girth', 'picked up', 'offsets', 'apart'],
      ...against.rows.map((row) => [
        lengthFigure(row.girthMm, notation),
        signed(row.pickedUpDeg, 1),
        signed(row.offsetsDeg, 1),
        signed(row.pickedUpDeg - row.offsetsDeg, 1),
      ]),
    ]),
  ];
}
