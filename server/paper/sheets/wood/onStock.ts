/** What the plan's figures come to on the plank: how much lies beyond the marks, and how deep the frame is as built. */

import type { Plan } from '../../../core/plan/plan.ts';
import { rowAt } from '../../../core/rowAt.ts';

export interface BeyondMarks {
  /** From the heel end of the stock to mark 1. */
  readonly heelMm: number;
  /** From the head end to the last mark. */
  readonly headMm: number;
}

/** The waste at an end, and what a wedge needs beyond the mark there. */
export function beyondMarks({ rip, marks, stock }: Plan): BeyondMarks | undefined {
  const [first, last] = [marks[0], marks.at(-1)];
  if (rip === undefined || first === undefined || last === undefined) return undefined;
  const { outer, inner } = rip.ends;
  const leastMm = Math.min(outer.heelMm, inner.heelMm, ...marks.flatMap((at) => [at.stockMm, at.innerStockMm]));
  const heelMm = rip.endWasteMm + first.stockMm - leastMm;
  return { heelMm, headMm: stock.lengthMm - heelMm - (last.stockMm - first.stockMm) };
}

/** Least and greatest depth over the marks: both wedges, and the whole laminations that went between them. */
export function builtDepthMm({ marks, stack }: Plan): readonly [least: number, most: number] {
  const stackMm = stack.plies * stack.laminationMm;
  const depths = marks.flatMap(({ outerEdgesMm, innerEdgesMm, innerInFrameMm = innerEdgesMm }) =>
    [0, 1].map((edge) => stackMm + rowAt(outerEdgesMm, edge) + rowAt(innerInFrameMm, edge)),
  );
  return [Math.min(...depths), Math.max(...depths)];
}
