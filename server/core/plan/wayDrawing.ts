/**
 * Which way round, as shapes to draw, true to size and angle: the stock on the saw as the sawyer sees it along the feed, and the two
 * halves in the frame from the same place. Seen so, nothing is turned: either half has only slid past the other, sideways, and the
 * parallel laminations stand between. Millimetres, x to the sawyer's right from the face of the fence, y up from the table.
 */

import { fenceSide, oppositeSide } from '../rip/leadingEnd.ts';
import type { PlannedMark } from '../rip/plannedMark.ts';
import { type Edge, type EdgesMm, edgeOf, otherEdge } from '../rip/wedges.ts';
import type { Plan } from './plan.ts';

export type Spot = readonly [x: number, y: number];
/** A four-cornered shape, going round. */
export type Quad = readonly [Spot, Spot, Spot, Spot];

export interface WayDrawing {
  readonly mark: number;
  readonly upEdge: Edge;
  readonly lowEdge: Edge;
  /** Sides of the sawyer. */
  readonly fence: 'left' | 'right';
  readonly leans: 'left' | 'right';
  readonly isOuterAtFence: boolean;
  /** On the saw. The stock stands from x = 0 away from the fence. */
  readonly onSaw: { readonly outer: Quad; readonly inner: Quad; readonly blade: readonly [foot: Spot, top: Spot] };
  /** In the frame: both halves as on the saw, only moved. */
  readonly inFrame: { readonly outer: Quad; readonly inner: Quad; readonly stack: Quad };
  /** Thickness of the edges, square to the flats. */
  readonly edgesMm: { readonly outer: UpAndLow; readonly inner: UpAndLow };
  /** Side of the sawyer on which the planking lies in `inFrame`. */
  readonly planking: 'left' | 'right';
}
interface UpAndLow {
  readonly up: number;
  readonly low: number;
}

/** How far the blade is drawn beyond the wood, as a share of its height. */
const BEYOND = 0.3;

type Drawn = Pick<Plan, 'frame' | 'stack' | 'stock' | 'saw' | 'thickEdge' | 'rip'>;

/** At one mark. `plan.rip` says how the stock lies; plans made before it had the half at the fence outside and the thick edge up. */
export function wayDrawing(plan: Drawn, at: PlannedMark): WayDrawing {
  const upEdge = plan.rip?.way.upEdge ?? plan.thickEdge;
  const fence = plan.rip?.way.fence ?? fenceSide(plan.saw);
  const isOuterAtFence = (plan.rip?.way.outerIs ?? 'at the fence') === 'at the fence';
  const away = fence === 'left' ? 1 : -1;
  const high = plan.frame.sidingMm;
  const thick = plan.stock.thicknessMm;
  const of = (edgesMm: EdgesMm): UpAndLow => ({ up: edgeOf(edgesMm, upEdge), low: edgeOf(edgesMm, otherEdge(upEdge)) });
  const edgesMm = { outer: of(at.outerEdgesMm), inner: of(at.innerEdgesMm) };
  const [fenceEdges, awayEdges] = isOuterAtFence ? [edgesMm.outer, edgesMm.inner] : [edgesMm.inner, edgesMm.outer];
  /** Distances from the fence: of the flat, and of the sawn face at the upper and the lower edge. */
  const half = (flat: number, sawnUp: number, sawnLow: number): Quad => [
    [away * flat, 0],
    [away * flat, high],
    [away * sawnUp, high],
    [away * sawnLow, 0],
  ];
  const atFence = half(0, fenceEdges.up, fenceEdges.low);
  const beyond = half(thick, thick - awayEdges.up, thick - awayEdges.low);
  const kerf = (share: number): Spot => [
    away * (at.lineBottomMm + (at.lineTopMm - at.lineBottomMm) * share),
    high * share,
  ];
  const stackMm = plan.stack.plies * plan.stack.laminationMm;
  // The flats come to the stack: that of the half at the fence to its far side, the other one's to its near side.
  const [fenceSlid, awaySlid] = [slid(atFence, away * stackMm), slid(beyond, -away * thick)];
  const stack: Quad = [
    [0, 0],
    [0, high],
    [away * stackMm, high],
    [away * stackMm, 0],
  ];
  const awaySide = oppositeSide(fence);
  return {
    mark: at.mark,
    upEdge,
    lowEdge: otherEdge(upEdge),
    fence,
    leans: plan.saw.leans,
    isOuterAtFence,
    onSaw: {
      outer: isOuterAtFence ? atFence : beyond,
      inner: isOuterAtFence ? beyond : atFence,
      blade: [kerf(-BEYOND / 3), kerf(1 + BEYOND)],
    },
    inFrame: { outer: isOuterAtFence ? fenceSlid : awaySlid, inner: isOuterAtFence ? awaySlid : fenceSlid, stack },
    edgesMm,
    planking: isOuterAtFence ? awaySide : fence,
  };
}

const slid = (quad: Quad, by: number): Quad => {
  const [a, b, c, d] = quad;
  const moved = ([x, y]: Spot): Spot => [x + by, y];
  return [moved(a), moved(b), moved(c), moved(d)];
};

/** The mark to draw: where the bevel is greatest. */
export const steepestMark = (marks: readonly PlannedMark[]): PlannedMark | undefined =>
  marks.reduce<PlannedMark | undefined>(
    (most, mark) => (most === undefined || Math.abs(mark.sawnDeg) > Math.abs(most.sawnDeg) ? mark : most),
    undefined,
  );
