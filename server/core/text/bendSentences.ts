/** What the plan says of the bend in sentences, the same in a terminal and on a page. `length` writes a length in the user's units. */

import type { Length } from '../figures/lengths.ts';
import { hundredthsFigure, wholeFigure } from '../figures/shares.ts';
import { type BendPlan, sharpestWedge } from '../plan/bendPlan.ts';
import { bendCureText } from '../stack/bendCures.ts';

/** The sharpest bend of either wedge against the limit for its wood. */
export function bendSentence(bend: BendPlan, length: Length): string {
  const sharpest = sharpestWedge(bend.marks);
  if (sharpest === undefined)
    return 'No bend to check: the frame is straight, or no pattern of the moulded edge tells how it turns.';
  const { mark, wedge, thicknessMm, radiusMm, radiusOverThickness, strengthKept } = sharpest;
  const breaking =
    bend.breakingRadiusOverThickness === null
      ? ''
      : `; cold it breaks at about ${wholeFigure(bend.breakingRadiusOverThickness)}`;
  const tooSharp = bend.marks.filter(({ isTooSharp }) => isTooSharp).length;
  const verdict =
    tooSharp === 0
      ? `Both wedges bend as they are, and keep at least ${hundredthsFigure(strengthKept)} of their strength.`
      : `Too sharp at ${tooSharp} of ${bend.marks.length} marks.`;
  return (
    `The sharpest bend is the ${wedge} wedge's at mark ${mark}: ${length(thicknessMm)} thick in a radius of ${length(radiusMm, 'about')}, ` +
    `${wholeFigure(radiusOverThickness)} times its thickness. The published limit for ${bend.species} is ${bend.leastRadiusOverThickness}${breaking}. ${verdict}`
  );
}

/** The laminations between the wedges against the same limit; none where nothing is known of a turn. */
export function laminationSentences(
  { lamination, leastRadiusOverThickness }: BendPlan,
  length: Length,
): readonly string[] {
  if (lamination === undefined) return [];
  const { mark, thicknessMm, radiusMm, radiusOverThickness, atMostMm } = lamination;
  return [
    `The laminations, ${length(thicknessMm)} thick, lie in a radius of ${length(radiusMm, 'about')} at mark ${mark}, ` +
      `${wholeFigure(radiusOverThickness)} times their thickness, where ${leastRadiusOverThickness} is the limit: at most ${length(atMostMm, 'at most')} there.`,
  ];
}

export const bendCureSentences = ({ cures }: BendPlan, length: Length): readonly string[] =>
  cures.map((cure) => `Cure: ${bendCureText(cure, length)}.`);
