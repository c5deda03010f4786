/** The bevels of a whole boat as a table to be read in a terminal or printed as it is, in the user's own notation. */

import { errorFigure, signedDegFigure } from '../core/figures/degrees.ts';
import { fineText, lengthText } from '../core/figures/lengths.ts';
import type { Boat, BoatFrame } from '../core/frame/wholeBoat.ts';
import { fairingSentence } from '../core/text/offsetsSentences.ts';
import { columns } from './columns.ts';

/** A line of figures for each frame, a column for each mark from the heel. */
export function boatAsText(boat: Boat): string {
  const length = (mm: number): string => lengthText(mm, boat.notation);
  const most = Math.max(...boat.frames.map(({ marks }) => marks.length));
  const spans = boat.frames.map((frame) => [
    length(frame.atMm),
    length(frame.girthMm),
    fineText(frame.hollow.mostMm, boat.notation),
    length(frame.runOffAtHeadMm),
    ...Array.from({ length: most }, (_, i) => sawn(frame, i)),
  ]);
  const heads = ['frame at', 'girth', 'hollow', 'run-off', ...Array.from({ length: most }, (_, i) => `mark ${i + 1}`)];
  return `${[
    boat.title,
    '='.repeat(boat.title.length),
    `Sawn bevels in degrees, standing +, under -; moulded face ${boat.frame.mouldedFace}, siding ${length(boat.frame.sidingMm)}.`,
    ...(boat.spacingMm === null
      ? []
      : [`A mark every ${length(boat.spacingMm)} of girth from the heel; a frame's last one is at its head.`]),
    'Beside each bevel: what the table may make it wrong by, one standard deviation.',
    'Hollow: what a straight cut leaves to the planking at mid-siding, - where it leaves too much. Run-off: how far aft a plain',
    'stack without wedges would run at the head.',
    fairingSentence(boat.fairing, boat.notation),
    ...boat.warnings,
    '',
    ...columns([heads, ...spans]).map((line) => line.trimEnd()),
    ...boat.frames.flatMap((frame) => frame.warnings.map((warning) => `\nFrame at ${length(frame.atMm)}: ${warning}`)),
  ].join('\n')}\n`;
}

function sawn({ marks }: BoatFrame, i: number): string {
  const mark = marks[i];
  if (mark === undefined) return '';
  return `${signedDegFigure(mark.sawnDeg)} ${errorFigure(mark.errorDeg)}`;
}
