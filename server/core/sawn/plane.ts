/**
 * What has to come off a sawn face at one place, so that it gets the frame's bevel.
 *
 * Across the siding s the wedge is u thick at the edge that was up on the table and d at the other one, square to its flat, and on
 * the outer half u - d = s tan(tilt); on the inner half the other way. A plane only takes away: so the edge that is too thick for
 * the bevel wanted comes down and the other one stays, and it may not come under the thinnest edge allowed. What is then left over
 * is told. Planed is square to the finished face: a depth e on the edge, square to the flat, is e cos(bevel wanted).
 */

import { type Cut, halfKerfMm, lineOf } from '../rip/cut.ts';
import { type Edge, otherEdge } from '../rip/wedges.ts';
import { cosDeg, radToDeg, tanDeg } from '../units.ts';
import type { Half, WantedEdges } from './wantedEdges.ts';

export interface Planing {
  readonly haveDeg: number;
  readonly wantDeg: number;
  /** The edge that comes down, how far (on the edge, square to the flat), and how deep that is square to the finished face. */
  readonly edge: Edge;
  readonly edgeMm: number;
  readonly planeMm: number;
  /** Thickness of that edge, and of the thinner one, once that is done. */
  readonly leavesMm: number;
  readonly thinnestMm: number;
  /** Bevel had then, less wanted: only where the edge had no more to give. */
  readonly leftDeg: number;
  /** What that edge lacks. */
  readonly lacksMm: number;
}

/** `thinMm`: what the thinner edge there was measured to be; left out, it is what the planned cut leaves at this bevel. */
export function planingAt(asked: WantedEdges, haveDeg: number, wantDeg: number, thinMm?: number): Planing {
  const { cut, hand, half, upEdge, thinnestEdgeMm } = asked;
  const sign = half === 'outer' ? hand : -hand;
  const have = sawnEdges(cut, half, hand * haveDeg, thinMm ?? null, thinnestEdgeMm);
  const stepMm = sign * cut.sidingMm * tanDeg(wantDeg);
  const tooThick = have.upMm - have.downMm > stepMm ? 'up' : 'down';
  const [fromMm, staysMm] = tooThick === 'up' ? [have.upMm, have.downMm] : [have.downMm, have.upMm];
  const toMm = tooThick === 'up' ? staysMm + stepMm : staysMm - stepMm;
  // An edge that is under the limit as it is keeps what it has.
  const leastMm = Math.min(fromMm, Math.max(toMm, thinnestEdgeMm));
  const edgeMm = fromMm - leastMm;
  const leftStepMm = tooThick === 'up' ? leastMm - staysMm : staysMm - leastMm;
  return {
    haveDeg,
    wantDeg,
    edge: tooThick === 'up' ? upEdge : otherEdge(upEdge),
    edgeMm,
    planeMm: edgeMm * cosDeg(wantDeg),
    leavesMm: leastMm,
    thinnestMm: Math.min(leastMm, staysMm),
    leftDeg: radToDeg(Math.atan((sign * leftStepMm) / cut.sidingMm)) - wantDeg + 0,
    lacksMm: leastMm - toMm,
  };
}

interface EdgesHad {
  readonly upMm: number;
  readonly downMm: number;
}

/**
 * The edges of a half where the saw stood at this tilt. A cut that would have left less than nothing was not laid like this: then
 * nothing is known of the thickness, and none is taken to be spare.
 */
function sawnEdges(cut: Cut, half: Half, tiltDeg: number, thinMm: number | null, thinnestMm: number): EdgesHad {
  const { topMm, bottomMm } = lineOf(cut, tiltDeg);
  const lostMm = halfKerfMm(cut.kerfMm, tiltDeg);
  const upMm = (half === 'outer' ? topMm : cut.thicknessMm - topMm) - lostMm;
  const downMm = (half === 'outer' ? bottomMm : cut.thicknessMm - bottomMm) - lostMm;
  const had = Math.min(upMm, downMm);
  const moreMm = thinMm === null ? (had > 0 ? 0 : thinnestMm - had) : thinMm - had;
  return { upMm: upMm + moreMm, downMm: downMm + moreMm };
}
