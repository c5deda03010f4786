/** What is unwise about bending and stacking, and what helps. */

import { lengthIn, lengthText } from '../figures/lengths.ts';
import { wholeFigure } from '../figures/shares.ts';
import type { Job } from '../job.ts';
import { type BendPlan, sharpestWedge } from '../plan/bendPlan.ts';
import type { StackPlan } from '../plan/plan.ts';
import { bendCureText } from '../stack/bendCures.ts';
import type { Warning } from '../warning.ts';

/** At most one: the wedge and the place where the radius is smallest for its thickness, and what helps at every mark. */
export function bendWarnings(job: Job, bend: BendPlan): Warning[] {
  const tooSharp = bend.marks.filter(({ isTooSharp }) => isTooSharp);
  const worst = sharpestWedge(tooSharp);
  if (worst === undefined) return [];
  const length = lengthIn(job.notation);
  const { mark, wedge, thicknessMm, radiusMm, radiusOverThickness } = worst;
  const more = tooSharp.length - 1;
  const others = more === 0 ? '' : ` It is too sharp at ${more} more mark${more === 1 ? '' : 's'}.`;
  const breaking = bend.breakingRadiusOverThickness ?? 0;
  const breaks =
    radiusOverThickness < breaking ? ` Bent cold it breaks: at ${wholeFigure(breaking)} by its strength.` : '';
  const helps =
    bend.cures.length === 0
      ? 'No number of layers helps: use a wood that bends more, or less bevel in one frame'
      : `What helps: ${bend.cures.map((cure) => bendCureText(cure, length)).join('. Or ')}`;
  const message = `At mark ${mark} the ${wedge} wedge is ${length(thicknessMm)} thick and has to lie in a radius of ${length(radiusMm, 'about')}, ${wholeFigure(radiusOverThickness)} times its thickness; the published limit for ${bend.species} is ${bend.leastRadiusOverThickness}.${others}${breaks} ${helps}. Bend a trial piece first.`;
  return [{ code: 'bend', message, mark }];
}

/** At most one: laminations that are too thick for the sharpest turn of the stack. */
export function laminationWarnings(job: Job, { lamination, species, ...limits }: BendPlan): Warning[] {
  if (lamination === undefined || !lamination.isTooSharp) return [];
  const length = lengthIn(job.notation);
  const { mark, thicknessMm, radiusMm, radiusOverThickness, atMostMm } = lamination;
  const breaking = limits.breakingRadiusOverThickness ?? 0;
  const breaks =
    radiusOverThickness < breaking ? ` Bent cold they break: at ${wholeFigure(breaking)} by their strength.` : '';
  const message = `At mark ${mark} the laminations, ${length(thicknessMm)} thick, have to lie in a radius of ${length(radiusMm, 'about')}, ${wholeFigure(radiusOverThickness)} times their thickness; the published limit for ${species} is ${limits.leastRadiusOverThickness}.${breaks} Laminations of at most ${length(atMostMm, 'at most')} lie there. Bend a trial piece first.`;
  return [{ code: 'lamination-bend', message, mark }];
}

/** `roomMm`: the moulding less both wedges where they are thickest together. */
export function stackWarnings(job: Job, stack: StackPlan, roomMm: number): Warning[] {
  if (stack.plies >= 1) return [];
  const wedges = lengthText(job.frame.mouldingMm - roomMm, job.notation);
  const message = `The two wedges together are up to ${wedges} thick: in a moulding of ${lengthText(job.frame.mouldingMm, job.notation)} there is no room for a lamination of ${lengthText(stack.laminationMm, job.notation)} between them. Make the moulding deeper or the laminations thinner.`;
  return [{ code: 'stack-too-thin', message }];
}
