/** The whole rip, place by place: what the saw does, what comes off it, and where it lies on the straight stock. */
import type { Result } from '../errors.ts';
import { ok, refused } from '../errors.ts';
import type { Job } from '../job.ts';
import { lengthText } from '../lengthText.ts';
import { type Cut, layCut } from './cut.ts';
import { handOf, type Lay, layOf } from './lay.ts';
import { innerDepthMm, lengthsAlongMm, outerDepthMm } from './straighten.ts';
import { type Wedges, wedgesOf } from './wedges.ts';

/** The frame's bevel along its moulded edge. */
export interface BevelCurve {
  bevelAtDeg(girthMm: number): number;
  slopeAtDegPerMm(girthMm: number): number;
}
/** The frame's moulded edge, from its pattern. */
export interface PatternCurve {
  readonly girthMm: number;
  at(girthMm: number): { readonly yMm: number; readonly zMm: number; readonly curvaturePerMm: number };
}

export interface RipPlace {
  readonly girthMm: number;
  readonly bevelDeg: number;
  /** What the saw stands at: hand x bevel. */
  readonly tiltDeg: number;
  readonly wedges: Wedges;
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
  readonly lay: Lay;
  readonly cut: Cut;
  readonly places: readonly RipPlace[];
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
  const { frame, saw } = job;
  const bevelsDeg = girthsMm.map((girthMm) => bevels.bevelAtDeg(girthMm) + 0);
  const wild = bevelsDeg.findIndex((deg) => !(Math.abs(deg) <= MOST_BEVEL_DEG));
  if (wild !== -1) return refused([curveSwings(job, girthsMm[wild] ?? 0, bevelsDeg[wild] ?? 0)]);
  const lay = layOf(frame, saw.leans, handOf(bevelsDeg));
  const cut = layCut(
    saw,
    frame.sidingMm,
    bevelsDeg.map((deg) => lay.hand * deg),
  );

  const curvatureAt = remembered((girthMm) => curvature(pattern, girthMm));
  const wedgesAt = (bevelDeg: number): Wedges => wedgesOf(cut, lay.hand * bevelDeg, lay.thickEdge);
  const outerStretch = (girthMm: number): number =>
    1 - curvatureAt(girthMm) * outerDepthMm(wedgesAt(bevels.bevelAtDeg(girthMm)).outerMm, frame.mouldedFace);
  const innerStretch = (girthMm: number): number =>
    1 -
    curvatureAt(girthMm) *
      innerDepthMm(wedgesAt(bevels.bevelAtDeg(girthMm)).innerMm, frame.mouldedFace, frame.mouldingMm);

  const tooSharp = girthsMm.find((girthMm) => !(outerStretch(girthMm) > 0 && innerStretch(girthMm) > 0));
  if (tooSharp !== undefined) return refused([noLengthLeft(job, tooSharp, curvatureAt(tooSharp))]);

  const stock = pattern === undefined ? fromFirst(girthsMm) : lengthsAlongMm(girthsMm, outerStretch);
  const inner = pattern === undefined ? stock : lengthsAlongMm(girthsMm, innerStretch);
  const register = greatestAt(bevelsDeg);
  const innerShiftMm = (stock[register] ?? 0) - (inner[register] ?? 0);

  const places = girthsMm.map((girthMm, i): RipPlace => {
    const bevelDeg = bevelsDeg[i] ?? 0;
    return {
      girthMm,
      bevelDeg,
      tiltDeg: lay.hand * bevelDeg + 0,
      wedges: wedgesAt(bevelDeg),
      curvaturePerMm: curvatureAt(girthMm),
      stockMm: stock[i] ?? 0,
      innerStockMm: (inner[i] ?? 0) + innerShiftMm,
      twistDegPerM: (Math.abs(bevels.slopeAtDegPerMm(girthMm)) / outerStretch(girthMm)) * 1000,
    };
  });
  return ok({ lay, cut, places });
}

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

const fromFirst = (girthsMm: readonly number[]): number[] => girthsMm.map((girthMm) => girthMm - (girthsMm[0] ?? 0));

const greatestAt = (bevelsDeg: readonly number[]): number =>
  bevelsDeg.reduce((best, deg, i) => (Math.abs(deg) > Math.abs(bevelsDeg[best] ?? 0) ? i : best), 0);

const curveSwings = (job: Job, girthMm: number, bevelDeg: number) => ({
  code: 'cannot-be-sawn' as const,
  at: { file: job.shape.file },
  found: `bevels whose fair curve swings to ${bevelDeg.toFixed(0)}° at girth ${lengthText(girthMm, job.units)}`,
  wanted: 'bevels that change evenly: check the rows on either side, and pick up more between them',
});

const noLengthLeft = (job: Job, girthMm: number, curvaturePerMm: number) => ({
  code: 'cannot-be-sawn' as const,
  at: edgePlace(job),
  found: `a radius of ${lengthText(Math.abs(1 / curvaturePerMm), job.units)} at girth ${lengthText(girthMm, job.units)}`,
  wanted: `a radius greater than the frame is deep (moulding ${lengthText(job.frame.mouldingMm, job.units)}): check the points there, for close points with small errors make false turns`,
});

function edgePlace({ shape }: Job): { readonly file: string } | { readonly field: string } {
  if (shape.kind === 'offsets') return { file: shape.file };
  return shape.pattern === undefined ? { field: 'shape.pattern' } : { file: shape.pattern.file };
}
