/**
 * What the rounding of a table of offsets makes of a place on the hull: each point is off its true place by what was rounded, square to
 * its section with a variance of step^2 / 12, and that goes through the smoother, the splines of the sections and the loft, which are all
 * linear. What comes of it is a weighted sum of independent errors, so its variance is the sum of the squared weights.
 * Source: variance of an even spread, and of a weighted sum (definitions); H H' step^2 / 12 for the smoother H. Derived: to the first order
 * a point that moves along its section changes nothing.
 * Error: linearised, the choice of the smoother taken as given; within a quarter of re-rounding the table many times over (measured in
 * test/core/frame/bevelError.test.ts).
 */
import { spanOf } from '../numeric/cubicCurve.ts';
import { SplineWeights, type Weights } from '../numeric/splineWeights.ts';
import type { FairedOffsets } from './fairOffsets.ts';
import type { OffsetPoint } from './offsets.ts';
import { pieces } from './surface.ts';

/** A place on a piece of the hull: how far along the boat, and which share of the section's length from its lower end. */
export interface HullPlace {
  readonly xMm: number;
  readonly share: number;
}

export interface TableError {
  /** One standard deviation of a single figure (mm). */
  readonly figureMm: number;
  /**
   * One standard deviation of `times` x the outward error at `far` less that at `near`, both on one piece between knuckles: errors of
   * two places that lie near each other are nearly the same.
   */
  apartMm(piece: number, near: HullPlace, far: HullPlace, times: number): number;
  /** How many bays a place is from the nearer outermost station, and how many points from the nearer end of its piece of the section. */
  fromEnds(piece: number, place: HullPlace): { readonly bays: number; readonly points: number };
}

/** Stations that count less than this beside the one that counts most are left out. */
const LEAST_COUNT = 1e-3;
const KEPT = 8;

/** `stepMm`: the step to which the figures are rounded. */
export function tableError({ table: { stations }, smoothers }: FairedOffsets, stepMm: number): TableError {
  const figureMm = stepMm / Math.sqrt(12);
  const x = Float64Array.from(stations, ({ xMm }) => xMm);
  const lengthwise = new SplineWeights(x);
  const sections = stations.map((station) => pieces(station).map(chordsOf));
  const faired = smoothers.map(() => new Map<number, Float64Array>());

  /** How much each station's points, as they stand in the table, count at a place along the boat. */
  const countsAt = (piece: number, xMm: number): Float64Array => {
    const known = faired[piece]?.get(xMm);
    if (known !== undefined) return known;
    const { from, weights } = lengthwise.at(xMm);
    const smoother = smoothers[piece];
    const counts = new Float64Array(x.length);
    if (smoother === undefined) counts.set(weights, from);
    else
      counts.forEach((_, j) => {
        counts[j] = weights.reduce((sum, weight, i) => sum + weight * (smoother[(from + i) * x.length + j] ?? 0), 0);
      });
    const kept = faired[piece];
    // A frame athwartships asks for the same two places again and again, a canted one for ever new ones.
    if ((kept?.size ?? 0) >= KEPT) kept?.clear();
    kept?.set(xMm, counts);
    return counts;
  };

  return {
    figureMm,
    apartMm: (piece, near, far, times) => {
      const [here, there] = [countsAt(piece, near.xMm), countsAt(piece, far.xMm)];
      const most = here.reduce((greatest, count) => Math.max(greatest, Math.abs(count)), 0);
      let variance = 0;
      sections.forEach((parts, j) => {
        const section = parts[piece];
        const [a, b] = [here[j] ?? 0, times * (there[j] ?? 0)];
        if (section === undefined || Math.abs(a) + Math.abs(b) < LEAST_COUNT * most) return;
        variance += squares(section.at(near.share * section.length), section.at(far.share * section.length), a, b);
      });
      return figureMm * Math.sqrt(variance);
    },
    fromEnds: (piece, { xMm, share }) => {
      const i = spanOf(x, xMm);
      const [before = 0, after = 0] = x.subarray(i, i + 2);
      const bay = i + (xMm - before) / (after - before);
      const spans = sections.reduce((sum, parts) => sum + (parts[piece]?.spans ?? 0), 0) / sections.length;
      return { bays: Math.max(0, Math.min(bay, x.length - 1 - bay)), points: spans * Math.min(share, 1 - share) };
    },
  };
}

interface SectionWeights {
  readonly spans: number;
  readonly length: number;
  at(alongMm: number): Weights;
}

/** A piece of a section by its summed chords: close enough to its length for telling where on it a place is. */
function chordsOf(points: readonly OffsetPoint[]): SectionWeights {
  let length = 0;
  const knots = Float64Array.from(points, ({ yMm, zMm }, i) => {
    const before = points[i - 1];
    if (before !== undefined) length += Math.hypot(yMm - before.yMm, zMm - before.zMm);
    return length;
  });
  const spline = new SplineWeights(knots);
  return { spans: knots.length - 1, length, at: (alongMm) => spline.at(alongMm) };
}

/** Of `b` x the weights there less `a` x the weights here, which may begin at other points. */
function squares(here: Weights, there: Weights, a: number, b: number): number {
  const from = Math.min(here.from, there.from);
  const to = Math.max(here.from + here.weights.length, there.from + there.weights.length);
  let sum = 0;
  for (let p = from; p < to; p++) {
    const count = b * (there.weights[p - there.from] ?? 0) - a * (here.weights[p - here.from] ?? 0);
    sum += count * count;
  }
  return sum;
}
