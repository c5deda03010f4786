/**
 * A crew, a saw and a boat in space: saws a stock by nothing but what its plan says, sets the two wedges up against the hull and
 * measures. The second computation of the whole rip; nothing of the core's own geometry is used.
 */
import type { Plan } from '../../server/core/plan/plan.ts';

type Vector = readonly [number, number, number];
const times = (k: number, a: Vector): Vector => [k * a[0], k * a[1], k * a[2]];
const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const rad = (deg: number): number => (deg * Math.PI) / 180;

/** Thickness at the forward and at the aft edge, at a place along the straight piece. */
export type Piece = (stockMm: number) => readonly [forward: number, aft: number];
export interface Pieces {
  readonly outer: Piece;
  readonly inner: Piece;
}

/** What the crew does: as the plan says, or with one thing the wrong way round. */
export interface Crew {
  readonly leads: 'heel' | 'head';
  readonly upEdge: 'forward' | 'aft';
}
export const asPlanned = (plan: Plan): Crew => ({ leads: plan.leads, upEdge: ripOf(plan).way.upEdge });

export function ripOf(plan: Plan): NonNullable<Plan['rip']> {
  if (plan.rip === undefined) throw new Error('a plan without its rip');
  return plan.rip;
}

/** Values between places by straight lines; before the first and behind the last the end value. */
export function between(xs: readonly number[], ys: readonly number[]): (x: number) => number {
  let i = 0;
  return (x) => {
    while (i > 0 && (xs[i] ?? 0) > x) i -= 1;
    while (i < xs.length - 2 && (xs[i + 1] ?? 0) < x) i += 1;
    const [x0 = 0, x1 = 1, y0 = 0, y1 = 0] = [xs[i], xs[i + 1], ys[i], ys[i + 1]];
    return y0 + Math.min(1, Math.max(0, (x - x0) / (x1 - x0))) * (y1 - y0);
  };
}

/**
 * The sawyer's axes: x to the right, y along the feed, z up. At each mark on the wood the tilt is the plan's, even between marks.
 * The halves are set up without being turned, either sawn face away from the stack.
 */
export function sawByPlan(plan: Plan, crew: Crew): Pieces {
  const { sidingMm, side } = plan.frame;
  const { way, lineMm, straightAtMm } = ripOf(plan);
  const head: Vector = [0, crew.leads === 'head' ? 1 : -1, 0];
  const forward: Vector = [0, 0, crew.upEdge === 'forward' ? 1 : -1];
  // In the boat forward x port = up: forward x outboard is headward to port and heelward to starboard.
  const outboard = times(side === 'port' ? 1 : -1, cross(head, forward));
  const fromFence: Vector = [way.fence === 'left' ? 1 : -1, 0, 0];
  const lean: Vector = [plan.saw.leans === 'right' ? 1 : -1, 0, 0];

  const tiltAt = between(
    plan.marks.map(({ stockMm }) => stockMm),
    plan.marks.map(({ sawnDeg }) => plan.hand * sawnDeg),
  );
  const half = (isAtFence: boolean, stockMm: number, heightMm: number): number => {
    const tilt = rad(tiltAt(stockMm));
    const line = lineMm + dot(lean, fromFence) * (heightMm - straightAtMm) * Math.tan(tilt);
    const kerf = plan.saw.kerfMm / 2 / Math.cos(tilt);
    return isAtFence ? line - kerf : plan.stock.thicknessMm - line - kerf;
  };
  const heightOf = (edge: 'forward' | 'aft'): number => (edge === crew.upEdge ? sidingMm : 0);
  const piece =
    (isAtFence: boolean): Piece =>
    (stockMm) => [half(isAtFence, stockMm, heightOf('forward')), half(isAtFence, stockMm, heightOf('aft'))];
  const fenceIsOuter = dot(fromFence, outboard) > 0;
  return { outer: piece(fenceIsOuter), inner: piece(!fenceIsOuter) };
}

/** A boat's side at one frame: the moulded edge by its curvature, and the hull across the siding by bevel and hollow. */
export interface Hull {
  readonly girthMm: number;
  readonly curvaturePerMm: (girthMm: number) => number;
  readonly bevelDeg: (girthMm: number) => number;
  /** Between the straight line from face to face and the hull, in the middle of the siding. */
  readonly hollowMm: number;
}

export interface EdgePoint {
  readonly girthMm: number;
  readonly at: readonly [y: number, z: number];
  /** Outward, square to the moulded edge. */
  readonly out: readonly [y: number, z: number];
}

/** The moulded edge walked in small steps, by the middle of each. */
export function walkEdge(hull: Hull, stepMm = 0.5): readonly EdgePoint[] {
  const count = Math.round(hull.girthMm / stepMm);
  const step = hull.girthMm / count;
  const points: EdgePoint[] = [];
  let [y, z, heading] = [150, 60, 0.3];
  for (let i = 0; i <= count; i++) {
    points.push({ girthMm: i * step, at: [y, z], out: [Math.sin(heading), -Math.cos(heading)] });
    const middle = heading + (hull.curvaturePerMm((i + 0.25) * step) * step) / 2;
    [y, z] = [y + step * Math.cos(middle), z + step * Math.sin(middle)];
    heading += hull.curvaturePerMm((i + 0.5) * step) * step;
  }
  return points;
}

export interface Bent {
  readonly girthMm: number;
  readonly stockMm: number;
  readonly edges: readonly [moulded: number, across: number];
}

/**
 * Bends a piece along the frame, the line through its centroids as long as before: where each place of the frame falls on it.
 * Lengths count along the moulded edge's own direction: the line also rises and falls with the taper, straight and bent alike.
 * `flatDepthMm`: how deep inside the moulded edge its flat lies; its wood lies outboard of it, or inboard.
 */
export function bend(
  plan: Plan,
  edge: readonly EdgePoint[],
  piece: Piece,
  lies: {
    readonly flatDepthMm: (girthMm: number) => number;
    readonly wood: 'outboard' | 'inboard';
    readonly fromMm: number;
  },
): readonly Bent[] {
  let alongMm = lies.fromMm;
  let before: { readonly here: readonly [number, number]; readonly at: readonly [number, number] } | undefined;
  return edge.map(({ girthMm, at, out }) => {
    const of = (stockMm: number): readonly [number, number] => {
      const [forward, aft] = piece(stockMm);
      return plan.frame.mouldedFace === 'forward' ? [forward, aft] : [aft, forward];
    };
    const [a, b] = of(alongMm);
    // Slices of the section: the third computation of its centroid, over Simpson's three, which is exact for a trapezium.
    const middle = (a + b) / 2;
    const centroid = (a * a + 4 * middle * middle + b * b) / 12 / middle;
    const depth = lies.flatDepthMm(girthMm) + (lies.wood === 'outboard' ? -centroid : centroid);
    const here = [at[0] - depth * out[0], at[1] - depth * out[1]] as const;
    if (before !== undefined) {
      const [dy, dz] = [at[0] - before.at[0], at[1] - before.at[1]];
      alongMm += ((here[0] - before.here[0]) * dy + (here[1] - before.here[1]) * dz) / Math.hypot(dy, dz);
    }
    before = { here, at };
    return { girthMm, stockMm: alongMm, edges: of(alongMm) };
  });
}

/** Greatest distance, square to it, between a sawn outer face set up in the boat and the hull. */
export function farthestOffHull(
  plan: Plan,
  hull: Hull,
  bent: readonly Bent[],
  flatDepthMm: (girthMm: number) => number,
): number {
  const siding = plan.frame.sidingMm;
  let most = 0;
  for (const { girthMm, edges } of bent) {
    const tan = Math.tan(rad(hull.bevelDeg(girthMm)));
    for (const u of [0, 0.25, 0.5, 0.75, 1]) {
      const wood = edges[0] + u * (edges[1] - edges[0]) - flatDepthMm(girthMm);
      const skin = u * siding * tan + 4 * u * (1 - u) * hull.hollowMm;
      most = Math.max(most, Math.abs(wood - skin) * Math.cos(Math.atan(tan)));
    }
  }
  return most;
}
