/** The whole rip, place by place: what the saw does, what comes off it, and where it lies on the straight stock. */

import type { Result } from '../errors.ts';
import { ok, refused } from '../errors.ts';
import { degText } from '../figures/degrees.ts';
import { lengthText } from '../figures/lengths.ts';
import type { BevelCurve } from '../frame/bevelCurve.ts';
import type { Job } from '../job.ts';
import { rowAt } from '../rowAt.ts';
import { ripChoices } from '../saw/sawDefaults.ts';
import type { Cut } from './cut.ts';
import { type LaidOut, layOut, type Unbendable, type WedgeEnds } from './layOut.ts';
import { handOf, type Orientation, orientationOf } from './leadingEnd.ts';
import { agreeAt, greatestAt, innerSawnDeg, sharedBevels } from './registered.ts';
import { type EdgesMm, type Wedges, wedgesOf } from './wedges.ts';

/** The frame's moulded edge, from its pattern. */
export interface PatternCurve {
  readonly girthMm: number;
  at(girthMm: number): { readonly yMm: number; readonly zMm: number; readonly curvaturePerMm: number };
}

export interface RipPlace {
  readonly girthMm: number;
  /** What the frame asks for. */
  readonly bevelDeg: number;
  /** What the cut has where this place falls on the outer wedge, and where it falls on the inner one. */
  readonly sawnDeg: number;
  readonly innerSawnDeg: number;
  /** What the saw stands at: hand x sawn bevel. */
  readonly tiltDeg: number;
  /** Both as the cut leaves them at this place of the outer one. */
  readonly wedges: Wedges;
  /** The inner wedge's edges where this place of the frame falls on it. */
  readonly innerInFrameMm: EdgesMm;
  /** Of the moulded edge, positive as a bilge; 0 where there is no pattern. */
  readonly curvaturePerMm: number;
  /** Along the straight outer wedge from the first place; without a pattern simply along the girth. */
  readonly stockMm: number;
  /** Where the same place of the frame lies on the straight inner wedge, in the same measure. */
  readonly innerStockMm: number;
  /** How fast the bevel changes along the stock, without sign. */
  readonly twistDegPerM: number;
}

export interface Rip {
  readonly orientation: Orientation;
  readonly cut: Cut;
  readonly places: readonly RipPlace[];
  /** The bevel that is sawn, by the girth of the outer wedge. */
  readonly sawn: BevelCurve;
  /** Girth of the place where the two wedges agree; of several the one nearest to the turn of the bilge. */
  readonly registerMm: number;
  /** Where the two wedges end, in the stock's measure. */
  readonly ends: { readonly outer: WedgeEnds; readonly inner: WedgeEnds };
}

/** No more than 60 degrees is ever picked up; a curve that goes far beyond swings between rows that cannot all be right. */
const MOST_BEVEL_DEG = 75;

/**
 * The rip over `girthsMm` (rising, at least two). Refused where the fair curve swings out of all reason, or the pattern turns so sharply that wood at the depth of the
 * wedges would have no length left.
 */
export function ripOf(
  job: Job,
  girthsMm: readonly number[],
  bevels: BevelCurve,
  pattern: PatternCurve | undefined,
): Result<Rip> {
  const bevelsDeg = girthsMm.map((girthMm) => bevels.bevelAtDeg(girthMm) + 0);
  const wild = bevelsDeg.findIndex((deg) => !(Math.abs(deg) <= MOST_BEVEL_DEG));
  if (wild !== -1) return refused([curveSwings(job, rowAt(girthsMm, wild), rowAt(bevelsDeg, wild))]);
  const orientation = orientationOf(job.frame, job.saw.leans, handOf(bevelsDeg));
  const curvatureAt = remembered((girthMm) => curvature(pattern, girthMm));
  const turnAt = greatestAt(bevelsDeg);
  const laidFor = (sawn: BevelCurve): LaidOut | Unbendable =>
    layOut(job, {
      girthsMm,
      wantedDeg: bevelsDeg,
      turnAt,
      orientation,
      sawn,
      curvatureAt,
      isBent: pattern !== undefined,
    });

  let sawn = bevels;
  let laid = laidFor(sawn);
  if (ripChoices(job).favours === 'both' && pattern !== undefined)
    for (let pass = 0; pass < SHARING_PASSES && 'lines' in laid; pass++) {
      sawn = sharedBevels(laid.lines, bevels);
      laid = laidFor(sawn);
    }
  if (!('lines' in laid)) return refused([noLengthLeft(job, laid.tooSharpMm, curvatureAt(laid.tooSharpMm))]);

  const { cut, lines, outerStretch } = laid;
  const places = girthsMm.map((girthMm, i): RipPlace => {
    const sawnDeg = sawn.bevelAtDeg(girthMm) + 0;
    const innerStockMm = rowAt(lines.innerStockMm, i);
    const insideDeg = innerSawnDeg(lines, sawn, innerStockMm) + 0;
    return {
      girthMm,
      bevelDeg: rowAt(bevelsDeg, i),
      sawnDeg,
      innerSawnDeg: insideDeg,
      tiltDeg: orientation.hand * sawnDeg + 0,
      wedges: wedgesOf(cut, orientation.hand * sawnDeg, orientation.thickEdge),
      innerInFrameMm: wedgesOf(cut, orientation.hand * insideDeg, orientation.thickEdge).innerMm,
      curvaturePerMm: curvatureAt(girthMm),
      stockMm: rowAt(lines.stockMm, i),
      innerStockMm,
      twistDegPerM: (Math.abs(sawn.slopeAtDegPerMm(girthMm)) / outerStretch(girthMm)) * 1000,
    };
  });
  return ok({ orientation, cut, places, sawn, registerMm: rowAt(girthsMm, agreeAt(lines, turnAt)), ends: laid.ends });
}

/** Where the bevel is shared, sharing moves the lines by hundredths of a millimetre, and they the shares by nothing to speak of. */
const SHARING_PASSES = 2;

/** Both wedges are measured over the same places, and a place on the pattern is dear to find. */
function remembered(find: (at: number) => number): (at: number) => number {
  const found = new Map<number, number>();
  return (at) => {
    const known = found.get(at) ?? find(at);
    found.set(at, known);
    return known;
  };
}

/** Beyond the pattern's ends its end curvature holds. */
function curvature(pattern: PatternCurve | undefined, girthMm: number): number {
  if (pattern === undefined) return 0;
  return pattern.at(Math.min(pattern.girthMm, Math.max(0, girthMm))).curvaturePerMm;
}

const curveSwings = (job: Job, girthMm: number, bevelDeg: number) => ({
  code: 'cannot-be-sawn' as const,
  at: { file: job.shape.file },
  found: `bevels whose fair curve swings to ${degText(bevelDeg, 0)} at girth ${lengthText(girthMm, job.notation)}`,
  wanted: 'bevels that change evenly: check the rows on either side, and pick up more between them',
});

const noLengthLeft = (job: Job, girthMm: number, curvaturePerMm: number) => ({
  code: 'cannot-be-sawn' as const,
  at: edgePlace(job),
  found: `a radius of ${lengthText(Math.abs(1 / curvaturePerMm), job.notation)} at girth ${lengthText(girthMm, job.notation)}`,
  wanted: `a radius greater than the frame is deep (moulding ${lengthText(job.frame.mouldingMm, job.notation)}): check the points there, for close points with small errors make false turns`,
});

function edgePlace({ shape }: Job): { readonly file: string } | { readonly field: string } {
  if (shape.kind === 'offsets') return { file: shape.file };
  return shape.pattern === undefined ? { field: 'shape.pattern' } : { file: shape.pattern.file };
}
