/** What is unwise about bending and stacking, and what helps. */
import type { Job } from '../job.ts';
import { lengthText } from '../lengthText.ts';
import type { PlannedMark, StackPlan, Warning } from '../plan.ts';
import { type Bend, bendsAt, leastRadiusOverThickness } from './bendLimit.ts';

const ratioOf = ({ radiusMm, thicknessMm }: Bend): number => radiusMm / thicknessMm;

/** At most one: the place where the radius is smallest for the wedge's thickness. */
export function bendWarnings(job: Job, marks: readonly PlannedMark[]): Warning[] {
  const bends = marks.flatMap(({ mark, radiusMm, outerEdgesMm, innerEdgesMm }) =>
    radiusMm === null
      ? []
      : bendsAt(
          radiusMm,
          { outerMm: outerEdgesMm, innerMm: innerEdgesMm },
          job.frame.mouldedFace,
          job.frame.mouldingMm,
        ).map((bend) => ({ mark, ...bend })),
  );
  const worst = bends.reduce<(typeof bends)[number] | undefined>(
    (a, b) => (a === undefined || ratioOf(b) < ratioOf(a) ? b : a),
    undefined,
  );
  const least = leastRadiusOverThickness(job.stack.species);
  if (worst === undefined || ratioOf(worst) >= least) return [];
  const { mark, wedge, thicknessMm, radiusMm } = worst;
  const message = `At mark ${mark} the ${wedge} wedge is ${lengthText(thicknessMm, job.units)} thick and has to lie in a radius of ${lengthText(radiusMm, job.units)}, ${ratioOf(worst).toFixed(0)} times its thickness; the published limit for ${job.stack.species} is ${least}. Rip each wedge in two with a second, parallel rip, build it of thinner tapered layers, or steam it; bend a trial piece first.`;
  return [{ code: 'bend', message, mark }];
}

/** `roomMm`: the moulding less both wedges where they are thickest together. */
export function stackWarnings(job: Job, stack: StackPlan, roomMm: number): Warning[] {
  if (stack.plies >= 1) return [];
  const wedges = lengthText(job.frame.mouldingMm - roomMm, job.units);
  const message = `The two wedges together are up to ${wedges} thick: in a moulding of ${lengthText(job.frame.mouldingMm, job.units)} there is no room for a lamination of ${lengthText(stack.laminationMm, job.units)} between them. A deeper moulding or thinner laminations.`;
  return [{ code: 'stack-too-thin', message }];
}
