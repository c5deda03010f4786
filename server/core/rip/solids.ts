/**
 * Stock, blade and frame as solids in space.
 *
 * Axes of the boat: x forward, y to port, z up, at a place where the frame stands plumb, its head up. The stock is laid on the
 * table in some way, the blade's plane divides it, the kerf is taken away, and the two halves slide past each other into the
 * frame: nothing is turned, forward stays forward and heel stays heel, and either sawn face looks away from the stack.
 */
import { degToRad } from '../units.ts';
import { type Edge, type EdgesMm, otherEdge, type Wedges } from './wedges.ts';

type Vector = readonly [x: number, y: number, z: number];

interface Laid {
  /** The end that meets the blade first. */
  readonly leads: 'heel' | 'head';
  /** The edge that is up on the table. */
  readonly up: Edge;
}

/** Every way in which the stock can lie on the table with its siding upright. */
export const WAYS_TO_LAY: readonly Laid[] = (['heel', 'head'] as const).flatMap((leads) =>
  (['forward', 'aft'] as const).map((up) => ({ leads, up })),
);

interface BladeStand {
  readonly leans: 'left' | 'right';
  readonly tiltDeg: number;
  readonly kerfMm: number;
  /** The middle of the kerf passes this height above the table this far from the reference face. */
  readonly throughMm: readonly [heightMm: number, fromReferenceMm: number];
}

export interface Halves extends Wedges {
  /** Which half becomes the outer wedge: the one at the reference face, where a fence stands, or the other. */
  readonly outerIs: 'at the fence' | 'away from the fence';
}

const times = (k: number, a: Vector): Vector => [k * a[0], k * a[1], k * a[2]];
const plus = (a: Vector, b: Vector): Vector => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

const FORWARD: Vector = [1, 0, 0];
const PORT: Vector = [0, 1, 0];
const TO_HEAD: Vector = [0, 0, 1];

/**
 * Saws a stock of this section and gives both halves as they stand in the frame: thickness at the [forward, aft] edge, square to
 * the flat. The sawyer faces along the feed; a right-hand set of axes has his right at feed x up.
 */
export function sawSolids(
  laid: Laid,
  blade: BladeStand,
  section: { readonly sidingMm: number; readonly thicknessMm: number },
  side: 'port' | 'starboard',
): Halves {
  const feed = times(laid.leads === 'head' ? 1 : -1, TO_HEAD);
  const up = times(laid.up === 'forward' ? 1 : -1, FORWARD);
  const lean = times(blade.leans === 'right' ? 1 : -1, cross(feed, up));
  const outboard = times(side === 'port' ? 1 : -1, PORT);

  const tilt = degToRad(blade.tiltDeg);
  const alongBlade = plus(times(Math.cos(tilt), up), times(Math.sin(tilt), lean));
  const squareToBlade = plus(times(Math.cos(tilt), lean), times(-Math.sin(tilt), up));
  const [heightMm, fromReferenceMm] = blade.throughMm;
  const through = plus(times(heightMm, up), times(fromReferenceMm, lean));
  /** Where a face of the kerf crosses a height above the table, as a distance from the reference face. */
  const crossing = (face: 1 | -1, height: number): number => {
    const foot = plus(through, times((face * blade.kerfMm) / 2, squareToBlade));
    const by = (height - dot(foot, up)) / dot(alongBlade, up);
    return dot(plus(foot, times(by, alongBlade)), lean);
  };
  const foreAndAft = (thicknessAt: (heightMm: number) => number): EdgesMm => {
    const [atTable, atTop] = [thicknessAt(0), thicknessAt(section.sidingMm)];
    return dot(up, FORWARD) > 0 ? [atTop, atTable] : [atTable, atTop];
  };
  const atFence = foreAndAft((height) => crossing(-1, height));
  const away = foreAndAft((height) => section.thicknessMm - crossing(1, height));
  // The half at the fence is sawn on the side to which the blade leans. Nothing is turned: it is the outer wedge if that is outboard.
  return dot(lean, outboard) > 0
    ? { outerMm: atFence, innerMm: away, outerIs: 'at the fence' }
    : { outerMm: away, innerMm: atFence, outerIs: 'away from the fence' };
}

/** The bevel that the outer wedge gives the frame: positive where it grows from the moulded face across (standing, obtuse). */
export function bevelSign({ outerMm: [forward, aft] }: Wedges, mouldedFace: Edge): -1 | 0 | 1 {
  const grows = mouldedFace === 'forward' ? aft - forward : forward - aft;
  return grows > 0 ? 1 : grows < 0 ? -1 : 0;
}

export const thickEdgeOf = ({ outerMm: [forward, aft] }: Wedges): Edge =>
  forward > aft ? 'forward' : otherEdge('forward');
