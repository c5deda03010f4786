/**
 * How far each point of a table stands off what the others say of its place. What its station should be is lofted from the other
 * stations alone; of the distance to that, what the points above and below share is shape (or the loft's own error), and what is the point's
 * alone is its error. So a fair hull shows little anywhere, however it curves, and a wrong point shows all of its own error.
 * Source: derived (leaving one out lengthwise, second differences along the section); splineOperator.ts, evenNodes.ts.
 * Error: a wrong point shows in the neighbouring stations too, with the other sign and about 0.6 of its size.
 */

import type { Curve } from '../numeric/spline/cubicCurve.ts';
import { cubicSpline } from '../numeric/spline/cubicSpline.ts';
import { evenNodes } from '../numeric/spline/evenNodes.ts';
import { type NodedCurve, nodedCurve } from '../numeric/spline/nodedCurve.ts';
import { rowAt } from '../rowAt.ts';
import type { HullStation, OffsetPoint, OffsetTable } from './offsets.ts';
import { pieces } from './surface.ts';

export interface PointResidual {
  readonly station: number;
  readonly point: OffsetPoint;
  /** 0 at the lower end of its piece, 1 at the upper. */
  readonly share: number;
  /** Square to the section, outward positive. */
  readonly offMm: number;
  /** The same with what it shares with the points above and below: how far it is from where the other stations have the hull. */
  readonly awayMm: number;
  /** What the half-breadth would be at this height, and the height at this half-breadth, to be fair; undefined where the section runs along. */
  readonly fairYMm: number | undefined;
  readonly fairZMm: number | undefined;
  /** How far off the fair line another place would be that the point might have been meant for, and whether it lies between the points above and below. */
  ifAt(yMm: number, zMm: number): { readonly offMm: number; readonly isInOrder: boolean };
  /** By how much lofting over the gap swells the errors of the other stations (1 and more). */
  readonly swell: number;
}

/** Fewer stations or points do not tell a wrong one from shape. */
const FEWEST_STATIONS = 6;
const FEWEST_POINTS = 5;
const LINES = 48;

/** Sections that have been drawn, by their points, wherever their station stands. */
export type DrawnSections = Map<HullStation['points'], readonly DrawnPiece[]>;

/** Reads tables whose stations stand at `x`; sections that it has seen before are not worked out again. */
export function pointResidualReader(
  x: readonly number[],
  seen: DrawnSections = new Map(),
): (table: OffsetTable, near?: Near) => readonly PointResidual[] {
  const weights = new Map<number, readonly number[]>();
  const weightsOf = (i: number): readonly number[] => {
    const known = weights.get(i) ?? weightsWithout(x, i);
    weights.set(i, known);
    return known;
  };
  const drawn = (station: HullStation): readonly DrawnPiece[] => {
    const known = seen.get(station.points) ?? pieces(station).map(draw);
    seen.set(station.points, known);
    return known;
  };
  return ({ stations }, near) => {
    if (stations.length < FEWEST_STATIONS) return [];
    const parted = stations.map(drawn);
    const count = Math.min(...parted.map((parts) => parts.length));
    return Array.from({ length: count }, (_, piece) => parted.flatMap((parts) => parts[piece] ?? [])).flatMap(
      (sections) => {
        if (Math.min(...sections.map(({ points }) => points.length)) < FEWEST_POINTS) return [];
        return sections.flatMap(({ points, share }, i) => {
          if (near !== undefined && Math.abs(i - near.station) > near.within) return [];
          const others = weightsOf(i);
          const swell = Math.sqrt(1 + others.reduce((sum, weight) => sum + weight * weight, 0));
          const said = saidByOthers(sections, others);
          return offAlong(points, share, said).map((off) => ({ station: i, swell, ...off }));
        });
      },
    );
  };
}

export interface Near {
  readonly station: number;
  readonly within: number;
}

interface DrawnPiece {
  readonly points: readonly OffsetPoint[];
  readonly u: Float64Array;
  readonly v: Float64Array;
  readonly share: readonly number[];
}

function draw(points: readonly OffsetPoint[]): DrawnPiece {
  const { u, v, share } = evenNodes(
    points.map(({ yMm, zMm }) => [yMm, zMm] as const),
    LINES,
  );
  return { points, u, v, share: [...share] };
}

/** What each of the other stations counts in the spline through them, read at station i; 0 for station i itself. */
function weightsWithout(x: readonly number[], i: number): readonly number[] {
  const others = x.filter((_, j) => j !== i);
  const at = rowAt(x, i);
  return x.map((place, j) => {
    if (j === i) return 0;
    const unit = others.map((other) => (other === place ? 1 : 0));
    const curve = cubicSpline(others, unit);
    if (i > 0 && i < x.length - 1) return curve.valueAt(at);
    // Beyond its end carried on as a parabola, for cubics run wild.
    const end = (i === 0 ? others[0] : others.at(-1)) ?? 0;
    return curve.valueAt(end) + curve.slopeAt(end) * (at - end) + (curve.secondAt(end) * (at - end) ** 2) / 2;
  });
}

function saidByOthers(
  noded: readonly { readonly u: Float64Array; readonly v: Float64Array }[],
  weights: readonly number[],
): NodedCurve {
  const u = new Float64Array(LINES);
  const v = new Float64Array(LINES);
  noded.forEach((section, j) => {
    const weight = rowAt(weights, j);
    for (let k = 0; k < LINES; k++) {
      u[k] = rowAt(u, k) + weight * rowAt(section.u, k);
      v[k] = rowAt(v, k) + weight * rowAt(section.v, k);
    }
  });
  return nodedCurve(u, v);
}

/** The foot of the perpendicular is found in so many rounds, each square to the curve where the last one ended. */
const FOOT_ROUNDS = 6;

function offAlong(
  points: readonly OffsetPoint[],
  shares: readonly number[],
  said: NodedCurve,
): readonly Omit<PointResidual, 'station' | 'swell'>[] {
  const feet = points.map(({ yMm, zMm }, j) => footOf(said, yMm, zMm, rowAt(shares, j) * (said.nodes - 1)));
  const last = points.length - 1;
  return points.map((point, j) => {
    const [a, b] = j === 0 ? [1, 2] : j === last ? [last - 2, last - 1] : [j - 1, j + 1];
    const [from, to, here] = [feet[a], feet[b], feet[j]];
    if (from === undefined || to === undefined || here === undefined) throw new Error(`no foot of ${a}, ${b} or ${j}`);
    const gap = to.at - from.at;
    const commonAt = (at: number): number => {
      const t = gap > 0 ? Math.min(2, Math.max(-1, (at - from.at) / gap)) : 0.5;
      return from.mm * (1 - t) + to.mm * t;
    };
    const common = commonAt(here.at);
    return {
      point,
      share: here.at / (said.nodes - 1),
      offMm: here.mm - common,
      awayMm: here.mm,
      fairYMm: crossing(said, point, common, 'y'),
      fairZMm: crossing(said, point, common, 'z'),
      ifAt: (yMm, zMm) => {
        const foot = footOf(said, yMm, zMm, nearestTo(said, yMm, zMm));
        const [least, most] = j === 0 ? [-Infinity, from.at] : j === last ? [to.at, Infinity] : [from.at, to.at];
        return { offMm: foot.mm - commonAt(foot.at), isInOrder: foot.at > least && foot.at < most };
      },
    };
  });
}

function footOf(said: NodedCurve, yMm: number, zMm: number, near: number) {
  let t = near;
  let [du, dv] = [0, 0];
  for (let round = 0; round < FOOT_ROUNDS; round++) {
    const speed = said.speedAt(t);
    [du, dv] = [said.u.slopeAt(t) / speed, said.v.slopeAt(t) / speed];
    t = Math.min(said.nodes, Math.max(-1, said.across(yMm, zMm, du, dv, t)));
  }
  const mm = (yMm - said.u.valueAt(t)) * dv - (zMm - said.v.valueAt(t)) * du;
  return { at: t, mm };
}

/** A section that runs nearer to the line than this (sine of the angle) tells nothing of where it crosses it. */
const CROSSES = 0.3;

/** Where the level line (for y) or the plumb line (for z) through the point crosses the section, `common` off what the others say. */
function crossing(said: NodedCurve, { yMm, zMm }: OffsetPoint, common: number, side: 'y' | 'z'): number | undefined {
  const near = nearestNode(said, side === 'y' ? said.v : said.u, side === 'y' ? zMm : yMm);
  const t = side === 'y' ? said.across(yMm, zMm, 0, 1, near) : said.across(yMm, zMm, 1, 0, near);
  if (!(t > -2 && t < said.nodes + 1)) return undefined;
  const speed = said.speedAt(t);
  const [ny, nz] = [said.v.slopeAt(t) / speed, -said.u.slopeAt(t) / speed];
  const [across, at] = side === 'y' ? [ny, said.u.valueAt(t)] : [nz, said.v.valueAt(t)];
  return Math.abs(across) < CROSSES ? undefined : at + common / across;
}

function nearestNode(said: NodedCurve, level: Curve, wanted: number): number {
  return nearest(said, (k) => Math.abs(level.valueAt(k) - wanted));
}

const nearestTo = (said: NodedCurve, yMm: number, zMm: number): number =>
  nearest(said, (k) => Math.hypot(said.u.valueAt(k) - yMm, said.v.valueAt(k) - zMm));

function nearest(said: NodedCurve, far: (node: number) => number): number {
  let best = 0;
  for (let k = 1; k < said.nodes; k++) if (far(k) < far(best)) best = k;
  return best;
}
