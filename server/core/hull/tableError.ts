/**
 * What the rounding of a table of offsets makes of a place on the hull: each point is off its true place by what was rounded, square to
 * its section with a variance of step^2 / 12, and that goes through the smoother, the splines of the sections and the loft, which are all
 * linear. What comes of it is a weighted sum of independent errors, so its variance is the sum of the squared weights.
 * Source: variance of an even spread, and of a weighted sum (definitions); H H' step^2 / 12 for the smoother H. Derived: to the first order
 * a point that moves along its section changes nothing.
 * Error: linearised, the choice of the smoother taken as given; within a quarter of re-rounding the table many times over (measured in
 * test/core/frame/bevelError.test.ts).
 */

import { spanOf } from '../numeric/spline/cubicCurve.ts';
import { SplineWeights, type Weights } from '../numeric/spline/splineWeights.ts';
import { rowAt } from '../rowAt.ts';
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

const KEPT = 8;

/** `stepMm`: the step to which the figures are rounded. */
export function tableError({ table: { stations }, smoothers }: FairedOffsets, stepMm: number): TableError {
  const figureMm = stepMm / Math.sqrt(12);
  const x = Float64Array.from(stations, ({ xMm }) => xMm);
  const lengthwise = new SplineWeights(x);
  const sections = stations.map((station) => pieces(station).map(spreadOn));
  const faired = smoothers.map(() => new Map<number, Float64Array>());

  /** How much each station's points, as they stand in the table, count at a place along the boat. */
  const countsAt = (piece: number, xMm: number): Float64Array => {
    const known = faired[piece]?.get(xMm);
    if (known !== undefined) return known;
    const { from, ofValue } = lengthwise.at(xMm);
    const smoother = smoothers[piece];
    const counts = new Float64Array(x.length);
    if (smoother === undefined) counts.set(ofValue, from);
    else
      counts.forEach((_, j) => {
        counts[j] = ofValue.reduce((sum, weight, i) => sum + weight * rowAt(smoother, (from + i) * x.length + j), 0);
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
      let variance = 0;
      sections.forEach((parts, j) => {
        const [a, b] = [rowAt(here, j), times * rowAt(there, j)];
        variance += parts[piece]?.spreadAt(near.share, b - a, b * (far.share - near.share)) ?? 0;
      });
      return figureMm * Math.sqrt(Math.max(0, variance));
    },
    fromEnds: (piece, { xMm, share }) => {
      const i = spanOf(x, xMm);
      const [before = 0, after = 0] = x.subarray(i, i + 2);
      const bay = i + (xMm - before) / (after - before);
      const spans = sections.reduce((sum, parts) => sum + rowAt(parts, piece).spans, 0) / sections.length;
      return { bays: Math.max(0, Math.min(bay, x.length - 1 - bay)), points: spans * Math.min(share, 1 - share) };
    },
  };
}

interface SectionSpread {
  readonly spans: number;
  /** The variance of `times` x the place at a share of the length plus `bySlope` x its slope there, over that of a single point. */
  spreadAt(share: number, times: number, bySlope: number): number;
}

/** The squared weights are kept at so many even shares of the length, and read between them: they change slowly. */
const KEPT_SHARES = 48;

/** A piece of a section by its summed chords: close enough to its length for telling where on it a place is. */
function spreadOn(points: readonly OffsetPoint[]): SectionSpread {
  let length = 0;
  const knots = Float64Array.from(points, ({ yMm, zMm }, i) => {
    const before = points[i - 1];
    if (before !== undefined) length += Math.hypot(yMm - before.yMm, zMm - before.zMm);
    return length;
  });
  let known: readonly Squares[] | undefined;
  const squares = (): readonly Squares[] => {
    if (known !== undefined) return known;
    const spline = new SplineWeights(knots);
    known = Array.from({ length: KEPT_SHARES + 1 }, (_, k) => squaresOf(spline.at((length * k) / KEPT_SHARES), length));
    return known;
  };
  return {
    spans: points.length - 1,
    spreadAt: (share, times, bySlope) => {
      const k = Math.min(KEPT_SHARES - 1, Math.floor(share * KEPT_SHARES));
      const t = share * KEPT_SHARES - k;
      const [from, to] = [squares()[k], squares()[k + 1]];
      if (from === undefined || to === undefined) return 0;
      const of = (what: keyof Squares): number => (1 - t) * from[what] + t * to[what];
      return times * times * of('values') + 2 * times * bySlope * of('both') + bySlope * bySlope * of('slopes');
    },
  };
}

/** Sums over the points: of the squared weights of a value, of those of the slope (by share of the length), and of their products. */
type Squares = Readonly<Record<'values' | 'slopes' | 'both', number>>;

function squaresOf({ ofValue, ofSlope }: Weights, length: number): Squares {
  let [values, slopes, both] = [0, 0, 0];
  ofValue.forEach((value, i) => {
    const slope = length * rowAt(ofSlope, i);
    values += value * value;
    slopes += slope * slope;
    both += value * slope;
  });
  return { values, slopes, both };
}
