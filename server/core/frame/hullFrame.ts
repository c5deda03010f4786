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
import type { HullPlace } from '../hull/tableError.ts';
import type { Curve } from '../numeric/spline/cubicCurve.ts';
import { type NodedCurve, nodedCurve } from '../numeric/spline/nodedCurve.ts';
import { rowAt } from '../rowAt.ts';
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
  /** Between which two places of the hull the chord at a girth runs. */
  chordAt(girthMm: number): FrameChord;
}

interface FrameChord {
  /** Counted from the keel up, between knuckles. */
  readonly piece: number;
  /** At the moulded edge, and where the frame's other face meets the hull square to that edge. */
  readonly near: HullPlace;
  readonly far: HullPlace;
  /** Cosine of the angle by which the section turns from the one to the other. */
  readonly cosTurn: number;
}

/** Undefined where no such plane crosses the hull within reach of its stations. */
export function hullFrame(surface: HullSurface, stand: FrameStand): HullFrame | undefined {
  const [moulded, middle, other] = [0, 0.5, 1].map((share) => faceCut(surface, stand, share));
  if (moulded === undefined || middle === undefined || other === undefined) return undefined;
  const parts = moulded.flatMap((piece, i) => {
    const [half, whole] = [middle[i], other[i]];
    return half === undefined || whole === undefined ? [] : [partOf(piece, half, whole, stand.sidingMm, aftOf(stand))];
  });
  const { starts, girthMm } = startsOf(parts);
  const used = [...moulded, ...other];
  return {
    girthMm,
    knucklesMm: starts.slice(1),
    usedMm: [Math.min(...used.map(({ fromMm }) => fromMm)), Math.max(...used.map(({ toMm }) => toMm))],
    at: (girth, side = 'above') => {
      const i = pieceAt(starts, girth, side);
      return placeOf(partAt(parts, i), girth - rowAt(starts, i));
    },
    chordAt: (girth) => {
      const i = pieceAt(starts, girth, 'above');
      return { piece: i, ...chordOf(partAt(parts, i), girth - rowAt(starts, i)) };
    },
  };
}

/** Only the bevel that is sawn, by girth from the heel: what a coarser hull is asked for. Undefined as of `hullFrame`. */
export function sawnAlong(surface: HullSurface, stand: FrameStand): ((girthMm: number) => number) | undefined {
  const [moulded, other] = [0, 1].map((share) => faceCut(surface, stand, share));
  if (moulded === undefined || other === undefined) return undefined;
  const parts = moulded.flatMap((piece, i) => {
    const whole = other[i];
    return whole === undefined ? [] : [chordPartOf(piece, whole, stand.sidingMm)];
  });
  const { starts } = startsOf(parts);
  return (girthMm) => {
    const i = pieceAt(starts, girthMm, 'above');
    const { edge, sawnDeg } = partAt(parts, i);
    return sawnDeg.valueAt(edge.parameterAt(girthMm - rowAt(starts, i)));
  };
}

const aftOf = ({ mouldedFace }: FrameStand): 1 | -1 => (mouldedFace === 'forward' ? 1 : -1);

/** The hull's cut at a share of the siding, from the moulded face. */
const faceCut = (surface: HullSurface, stand: FrameStand, share: number): readonly CutPiece[] | undefined =>
  planeCut(surface, { ...stand, offMm: share * aftOf(stand) * stand.sidingMm });

function startsOf(parts: readonly ChordPart[]): { readonly starts: readonly number[]; readonly girthMm: number } {
  const starts: number[] = [];
  let girthMm = 0;
  for (const { edge } of parts) {
    starts.push(girthMm);
    girthMm += edge.length;
  }
  return { starts, girthMm };
}

/** The loop and no function with a name: this is asked some hundreds of times a frame. */
function pieceAt(starts: readonly number[], girth: number, side: 'below' | 'above'): number {
  let i = starts.length - 1;
  while (i > 0 && !(side === 'above' ? rowAt(starts, i) <= girth : rowAt(starts, i) < girth)) i--;
  return i;
}

function partAt<P extends ChordPart>(parts: readonly P[], i: number): P {
  const part = parts[i];
  if (part === undefined) throw new Error(`a frame of ${parts.length} pieces has none numbered ${i}`);
  return part;
}

/** What is sawn on a piece of the frame between knuckles; the figures go with the edge's parameter. */
interface ChordPart {
  readonly edge: NodedCurve;
  readonly sawnDeg: Curve;
  /** The other face's cut, how far outward of each node of the edge it lies, and at which of its own places. */
  readonly other: NodedCurve;
  readonly outMm: Float64Array;
  readonly across: Float64Array;
  readonly edgeX: Float64Array;
  readonly otherX: Float64Array;
}

interface FramePart extends ChordPart {
  readonly bevelDeg: Curve;
  readonly hollowMm: Curve;
}

const angleDeg = (tangent: number): number => radToDeg(Math.atan(tangent));

function chordPartOf(moulded: CutPiece, far: CutPiece, sidingMm: number): ChordPart {
  const [edge, other] = [nodedCurve(moulded.u, moulded.v), nodedCurve(far.u, far.v)];
  const outMm = new Float64Array(edge.nodes);
  const across = new Float64Array(edge.nodes);
  for (let k = 0; k < edge.nodes; k++) {
    across[k] = parameterAcross(edge, other, k);
    outMm[k] = outwardMm(edge, other, k, across[k] ?? k);
  }
  const sawnDeg = edge.figure(outMm.map((mm) => angleDeg(mm / sidingMm)));
  return { edge, sawnDeg, other, outMm, across, edgeX: moulded.x, otherX: far.x };
}

function partOf(moulded: CutPiece, middle: CutPiece, far: CutPiece, sidingMm: number, aft: 1 | -1): FramePart {
  const chord = chordPartOf(moulded, far, sidingMm);
  const { edge, outMm } = chord;
  const half = nodedCurve(middle.u, middle.v);
  const hollow = outMm.map((wholeMm, k) => {
    const halfMm = outwardMm(edge, half, k, parameterAcross(edge, half, k));
    return ((halfMm - wholeMm / 2) * sidingMm) / Math.hypot(sidingMm, wholeMm);
  });
  return {
    ...chord,
    bevelDeg: edge.figure(moulded.tangent.map((tangent) => angleDeg(aft * tangent))),
    hollowMm: edge.figure(hollow),
  };
}

/** Where another cut of the hull is met square to the moulded edge at its node k. */
function parameterAcross(edge: NodedCurve, other: NodedCurve, k: number): number {
  return other.across(edge.u.valueAt(k), edge.v.valueAt(k), edge.u.slopeAt(k), edge.v.slopeAt(k), k);
}

/** How far outward of node k of the moulded edge the other cut lies at its own parameter `at`. */
function outwardMm(edge: NodedCurve, other: NodedCurve, k: number, at: number): number {
  const [du, dv] = [edge.u.slopeAt(k), edge.v.slopeAt(k)];
  const [byU, byV] = [other.u.valueAt(at) - edge.u.valueAt(k), other.v.valueAt(at) - edge.v.valueAt(k)];
  return (byU * dv - byV * du) / edge.speedAt(k);
}

function chordOf({ edge, other, across, edgeX, otherX }: FramePart, alongMm: number): Omit<FrameChord, 'piece'> {
  const last = edge.nodes - 1;
  const t = within(edge.parameterAt(alongMm), last);
  const to = within(between(across, t), last);
  const [du, dv] = [edge.u.slopeAt(t), edge.v.slopeAt(t)];
  const [eu, ev] = [other.u.slopeAt(to), other.v.slopeAt(to)];
  return {
    near: { xMm: between(edgeX, t), share: t / last },
    far: { xMm: between(otherX, to), share: to / last },
    cosTurn: (du * eu + dv * ev) / (Math.hypot(du, dv) * Math.hypot(eu, ev)),
  };
}

const within = (t: number, last: number): number => Math.min(last, Math.max(0, t));

/** Between the nodes' figures, evenly. */
function between(atNodes: Float64Array, t: number): number {
  const k = Math.min(atNodes.length - 2, Math.floor(t));
  return rowAt(atNodes, k) + (t - k) * (rowAt(atNodes, k + 1) - rowAt(atNodes, k));
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
