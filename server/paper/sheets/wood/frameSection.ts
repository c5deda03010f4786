/** A section of the frame true to shape: outer wedge, stack, inner wedge; forward at the left, planking above. */
import type { Plan } from '../../../core/plan/plan.ts';
import type { PlannedMark } from '../../../core/rip/plannedMark.ts';
import type { Pen } from '../../draw/pen.ts';

interface SectionPlace {
  /** Of the section, and of the highest of its wedges. */
  readonly middleMm: number;
  readonly topMm: number;
  readonly scale: number;
}
/** Where its parts came to lie on the page. */
interface DrawnSection {
  readonly leftMm: number;
  readonly rightMm: number;
  /** The stack's upper and lower side. */
  readonly upperMm: number;
  readonly lowerMm: number;
  readonly footMm: number;
}

/** So many are still seen apart. */
const PLIES_DRAWN = 60;

const stackMm = ({ stack }: Plan): number => stack.plies * stack.laminationMm;
export const tallMm = (plan: Plan, { outerEdgesMm, innerEdgesMm }: PlannedMark): number =>
  Math.max(...outerEdgesMm) + stackMm(plan) + Math.max(...innerEdgesMm);

export function drawFrameSection(
  pen: Pen,
  plan: Plan,
  mark: PlannedMark,
  { middleMm, topMm, scale }: SectionPlace,
): DrawnSection {
  const { outerEdgesMm, innerEdgesMm } = mark;
  const siding = plan.frame.sidingMm * scale;
  const [left, right] = [middleMm - siding / 2, middleMm + siding / 2];
  const upper = topMm + Math.max(...outerEdgesMm) * scale;
  const lower = upper + stackMm(plan) * scale;
  const wedge = (flat: number, [forward, aft]: readonly [number, number], way: 1 | -1): void =>
    pen.area(
      [
        [left, flat],
        [left, flat + way * forward * scale],
        [right, flat + way * aft * scale],
        [right, flat],
      ],
      'pale',
      { widthMm: 0.5 },
    );
  wedge(upper, outerEdgesMm, -1);
  wedge(lower, innerEdgesMm, 1);
  pen.box(left, upper, siding, lower - upper, undefined, { widthMm: 0.3 });
  const { plies } = plan.stack;
  for (let ply = 1; ply < plies && plies <= PLIES_DRAWN; ply += 1) {
    const y = upper + ((lower - upper) * ply) / plies;
    pen.line(
      [
        [left, y],
        [right, y],
      ],
      { widthMm: 0.1 },
    );
  }
  const foot = lower + Math.max(...innerEdgesMm) * scale;
  return { leftMm: left, rightMm: right, upperMm: upper, lowerMm: lower, footMm: foot };
}
