/**
 * A frame from the hull's surface: its moulded edge, and along it the bevel at the edge (tangent), the bevel as sawn straight across the
 * siding (chord), and what the straight cut leaves hollow between.
 *
 * Across the siding the hull is followed in the plane square to the moulded edge: d is how far outward of the moulded edge the hull
 * lies at the frame's other face, and tan(sawn) = d / siding. At mid-siding the hull lies d(S/2) outward and the cut d(S)/2: their
 * difference, square to the cut, is the hollow. A standing bevel is positive on either moulded face (derived).
 * Error: nodes are a hundredth of the girth apart; what is read between them is theirs to 1e-3 degree on a hard turn of bilge. The
 * hollow is greatest at mid-siding to the second order.
 */
import { type CutPiece, planeCut } from '../hull/planeCut.ts';
import type { HullSurface } from '../hull/surface.ts';
import type { Curve } from '../numeric/cubicCurve.ts';
import { type NodedCurve, nodedCurve } from '../numeric/nodedCurve.ts';
import { radToDeg } from '../units.ts';

export interface FrameStand {
  /** Where the moulded face meets the middle line. */
  readonly atMm: number;
  readonly cantDeg: number;
  readonly plankingMm: number;
  readonly sidingMm: number;
  readonly mouldedFace: 'forward' | 'aft';
}

export interface FramePlace {
  /** In the frame's own plane: out from the middle line, and up. */
  readonly yMm: number;
  readonly zMm: number;
  /** Positive where it curves as a bilge. */
  readonly curvaturePerMm: number;
  /** Tangent to the hull at the moulded edge; standing positive. */
  readonly bevelDeg: number;
  /** Straight across the siding, from face to face, and how it changes along the edge. */
  readonly sawnDeg: number;
  readonly sawnSlopeDegPerMm: number;
  /** Left between the straight cut and the planking at mid-siding; negative where the hull is full there and the cut leaves too much. */
  readonly hollowMm: number;
}

export interface HullFrame {
  readonly girthMm: number;
  /** Where the edge turns sharply, by girth. */
  readonly knucklesMm: readonly number[];
  /** The stretch of the hull that the two faces touch, lengthwise. */
  readonly usedMm: readonly [from: number, to: number];
  /** The place at a girth from the heel; at a knuckle that of the side above, unless told otherwise. */
  at(girthMm: number, side?: 'below' | 'above'): FramePlace;
}

/** Undefined where no such plane crosses the hull within reach of its stations. */
export function hullFrame(surface: HullSurface, stand: FrameStand): HullFrame | undefined {
  const aft = stand.mouldedFace === 'forward' ? 1 : -1;
  const cut = (share: number): readonly CutPiece[] | undefined =>
    planeCut(surface, { ...stand, offMm: share * aft * stand.sidingMm });
  const [moulded, middle, other] = [cut(0), cut(0.5), cut(1)];
  if (moulded === undefined || middle === undefined || other === undefined) return undefined;
  const parts = moulded.flatMap((piece, i) => {
    const [half, whole] = [middle[i], other[i]];
    return half === undefined || whole === undefined ? [] : [partOf(piece, half, whole, stand.sidingMm, aft)];
  });
  const starts: number[] = [];
  let girthMm = 0;
  for (const { edge } of parts) {
    starts.push(girthMm);
    girthMm += edge.length;
  }
  const used = [...moulded, ...other];
  return {
    girthMm,
    knucklesMm: starts.slice(1),
    usedMm: [Math.min(...used.map(({ fromMm }) => fromMm)), Math.max(...used.map(({ toMm }) => toMm))],
    at: (girth, side = 'above') => {
      // The loop and no function with a name: this is asked some hundreds of times a frame.
      let i = starts.length - 1;
      while (i > 0 && !(side === 'above' ? (starts[i] ?? 0) <= girth : (starts[i] ?? 0) < girth)) i--;
      const part = parts[i];
      if (part === undefined) throw new Error(`a frame of ${parts.length} pieces has none at ${girth}`);
      return placeOf(part, girth - (starts[i] ?? 0));
    },
  };
}

/** A piece of the frame between knuckles; its figures go with the edge's parameter. */
interface FramePart {
  readonly edge: NodedCurve;
  readonly bevelDeg: Curve;
  readonly sawnDeg: Curve;
  readonly hollowMm: Curve;
}

const angleDeg = (tangent: number): number => radToDeg(Math.atan(tangent));

function partOf(moulded: CutPiece, middle: CutPiece, other: CutPiece, sidingMm: number, aft: 1 | -1): FramePart {
  const edge = nodedCurve(moulded.u, moulded.v);
  const [half, whole] = [nodedCurve(middle.u, middle.v), nodedCurve(other.u, other.v)];
  const sawn = new Float64Array(edge.nodes);
  const hollow = new Float64Array(edge.nodes);
  for (let k = 0; k < edge.nodes; k++) {
    const halfMm = outwardMm(edge, half, k);
    const wholeMm = outwardMm(edge, whole, k);
    sawn[k] = angleDeg(wholeMm / sidingMm);
    hollow[k] = ((halfMm - wholeMm / 2) * sidingMm) / Math.hypot(sidingMm, wholeMm);
  }
  return {
    edge,
    bevelDeg: edge.figure(moulded.tangent.map((tangent) => angleDeg(aft * tangent))),
    sawnDeg: edge.figure(sawn),
    hollowMm: edge.figure(hollow),
  };
}

/** How far outward of node k of the moulded edge, square to the edge, another cut of the hull lies. */
function outwardMm(edge: NodedCurve, other: NodedCurve, k: number): number {
  const [u, v] = [edge.u.valueAt(k), edge.v.valueAt(k)];
  const speed = edge.speedAt(k);
  const [du, dv] = [edge.u.slopeAt(k) / speed, edge.v.slopeAt(k) / speed];
  const t = other.across(u, v, du, dv, k);
  return (other.u.valueAt(t) - u) * dv - (other.v.valueAt(t) - v) * du;
}

function placeOf({ edge, bevelDeg, sawnDeg, hollowMm }: FramePart, alongMm: number): FramePlace {
  const t = edge.parameterAt(alongMm);
  return {
    yMm: edge.u.valueAt(t),
    zMm: edge.v.valueAt(t),
    curvaturePerMm: edge.curvatureAt(t),
    bevelDeg: bevelDeg.valueAt(t),
    sawnDeg: sawnDeg.valueAt(t),
    sawnSlopeDegPerMm: sawnDeg.slopeAt(t) / edge.speedAt(t),
    hollowMm: hollowMm.valueAt(t),
  };
}
