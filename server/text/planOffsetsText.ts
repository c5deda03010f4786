/** What a plan says of the table of offsets, for `planText.ts`. */

import { signedDegFigure } from '../core/figures/degrees.ts';
import { fineFigure, fineText, lengthFigure, UNIT } from '../core/figures/lengths.ts';
import type { Plan } from '../core/plan/plan.ts';
import { againstSentences, movedMm, offsetsSentences } from '../core/text/offsetsSentences.ts';
import { columns } from './columns.ts';

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
        signedDegFigure(bevelDeg, 2),
        signedDegFigure(sawnDeg, 2),
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
        signedDegFigure(row.pickedUpDeg, 1),
        signedDegFigure(row.offsetsDeg, 1),
        signedDegFigure(row.pickedUpDeg - row.offsetsDeg, 1),
      ]),
    ]),
  ];
}
