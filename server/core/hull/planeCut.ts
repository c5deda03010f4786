/**
 * Where a plane cuts the hull: the plane of a frame's face. It stands plumb, athwartships or canted about its own plumb axis at the
 * middle line. If the offsets are to the outside of the planking, what is cut is the planking's inside, one thickness in along the normal.
 *
 * With n the outward unit normal and e the plane's normal toward aft, the bevel b off square has sin b = -n.e: positive where the hull
 * grows aft (derived; for athwartships planes this is |n_x|, check-values section 1).
 * Error: each node lies in the plane to 1e-7 mm.
 */
import type { LoftedSheet, SheetPoint } from '../numeric/spline/loftedSheet.ts';
import { cosDeg, degToRad } from '../units.ts';
import type { HullSurface } from './surface.ts';

interface FramePlane {
  /** Where the plane meets the middle line. */
  readonly atMm: number;
  /** 0 athwartships; positive: the outer end lies farther aft. */
  readonly cantDeg: number;
  /** Off the plane, square to it, positive aft. */
  readonly offMm: number;
  readonly plankingMm: number;
}

/** Nodes of one piece of the cut, in the plane: u outward from the middle line, v upward; the tangent of the bevel, positive growing aft. */
export interface CutPiece {
  readonly u: Float64Array;
  readonly v: Float64Array;
  readonly tangent: Float64Array;
  /** Where along the boat the hull is cut, on the side that the offsets are taken to. */
  readonly x: Float64Array;
  /** The least and the greatest x of the hull that was used. */
  readonly fromMm: number;
  readonly toMm: number;
}

const WITHIN_MM = 1e-7;
const MOST_ROUNDS = 40;

/** The cut, piece by piece from the keel up; undefined where the plane does not cross the hull within reach (it lies too far out, or along it). */
export function planeCut(surface: HullSurface, plane: FramePlane): readonly CutPiece[] | undefined {
  const reachMm = (surface.toMm - surface.fromMm) / 4;
  const cuts: CutPiece[] = [];
  for (const sheet of surface.pieces) {
    const cut = cutSheet(sheet, plane, surface.fromMm - reachMm, surface.toMm + reachMm);
    if (cut === undefined) return undefined;
    cuts.push(cut);
  }
  return cuts;
}

function cutSheet(sheet: LoftedSheet, plane: FramePlane, least: number, most: number): CutPiece | undefined {
  const u = new Float64Array(sheet.nodes);
  const v = new Float64Array(sheet.nodes);
  const tangent = new Float64Array(sheet.nodes);
  const along = new Float64Array(sheet.nodes);
  const cos = cosDeg(plane.cantDeg);
  const sin = Math.sin(degToRad(plane.cantDeg));
  const point: SheetPoint = { u: 0, v: 0, ux: 0, vx: 0, us: 0, vs: 0 };
  let [fromMm, toMm] = [Infinity, -Infinity];
  let x = plane.atMm + plane.offMm / cos;
  for (let k = 0; k < sheet.nodes; k++) {
    let isFound = false;
    for (let round = 0; round < MOST_ROUNDS && !isFound; round++) {
      sheet.at(x, k, point);
      // n = (-(y_x z_s - z_x y_s), z_s, -y_s), made a unit: outward on the starboard half.
      const nx = -(point.ux * point.vs - point.vx * point.us);
      const size = Math.sqrt(nx * nx + point.vs * point.vs + point.us * point.us);
      const inMm = plane.plankingMm / size;
      const qx = x - plane.atMm - inMm * nx;
      const qy = point.u - inMm * point.vs;
      const missed = qx * cos - qy * sin - plane.offMm;
      isFound = Math.abs(missed) < WITHIN_MM;
      if (isFound) {
        u[k] = qy * cos + qx * sin;
        v[k] = point.v + inMm * point.us;
        along[k] = x;
        const sine = -(nx * cos - point.vs * sin) / size;
        tangent[k] = sine / Math.sqrt(1 - sine * sine);
      } else x -= missed / (cos - point.ux * sin);
    }
    if (!(isFound && x >= least && x <= most)) return undefined;
    fromMm = Math.min(fromMm, x);
    toMm = Math.max(toMm, x);
  }
  return { u, v, tangent, x: along, fromMm, toMm };
}
