/** How far the strip may lie off, and where there is room for it. */
import type { Plan } from '../../core/plan/plan.ts';
import { edgeOf } from '../../core/rip/wedges.ts';
import { wayRound } from '../wayRound.ts';

interface StripAllowance {
  /** By how much the bevel changes in a millimetre of stock, where it changes fastest. */
  readonly degPerMm: number;
  /** So far along the stock the strip may lie off before the bevel is off by half a step of the readout; null: no matter how far. */
  readonly mayBeOffMm: number | null;
  /** On the upper side of the stock, the least that is beside the kerf on the half at the fence and on the other one. */
  readonly besideMm: readonly [number, number];
}

/** An error along the stock becomes one of the bevel by the rate at which the bevel changes: deg = deg/mm x mm. Derived. */
export function stripAllowance(plan: Plan): StripAllowance {
  const degPerMm = plan.twist.maxDegPerM / 1000;
  const up = wayRound(plan).upEdge;
  const least = (edges: (mark: Plan['marks'][number]) => readonly [number, number]): number =>
    Math.min(...plan.marks.map((mark) => edgeOf(edges(mark), up)));
  return {
    degPerMm,
    mayBeOffMm: degPerMm < 1e-6 ? null : plan.saw.readoutDeg / 2 / degPerMm,
    besideMm: [least(({ outerEdgesMm }) => outerEdgesMm), least(({ innerEdgesMm }) => innerEdgesMm)],
  };
}
