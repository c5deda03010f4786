/** Cut and lines of a rip: both wedges laid out on one straight stock, for the bevels that are sawn. */

import type { BevelCurve } from '../frame/bevelCurve.ts';
import type { Job } from '../job.ts';
import { interpolate } from '../numeric/interpolate.ts';
import { lastRow, rowAt } from '../rowAt.ts';
import { ripChoices, straightAtMm } from '../saw/sawDefaults.ts';
import { type Cut, layCut } from './cut.ts';
import type { Orientation } from './leadingEnd.ts';
import type { Lines } from './registered.ts';
import { registerWedges } from './registered.ts';
import { byOwnSection, innerCentroidMm, innerFlatDepthMm, lengthsAlongMm, outerDepthMm } from './unbentLength.ts';
import { type Wedges, wedgesOf } from './wedges.ts';

export interface LaidOut {
  readonly cut: Cut;
  readonly lines: Lines;
  readonly ends: { readonly outer: WedgeEnds; readonly inner: WedgeEnds };
  outerStretch(girthMm: number): number;
}
/** Where a wedge ends, in the stock's measure. */
export interface WedgeEnds {
  readonly heelMm: number;
  readonly headMm: number;
  readonly lengthMm: number;
}
/** A place that turns so sharply that wood at the depth of a wedge would have no length left. */
export interface Unbendable {
  readonly tooSharpMm: number;
}
interface ToLayOut {
  readonly girthsMm: readonly number[];
  /** What the frame asks for at each of them, and which is the turn of the bilge. */
  readonly wantedDeg: readonly number[];
  readonly turnAt: number;
  readonly orientation: Orientation;
  readonly sawn: BevelCurve;
  readonly curvatureAt: (girthMm: number) => number;
  /** False where no pattern tells: then the girth itself is the stock. */
  readonly isBent: boolean;
}

type AlongGirth = (girthMm: number) => number;

export function layOut(job: Job, asked: ToLayOut): LaidOut | Unbendable {
  const { girthsMm, orientation, sawn, curvatureAt } = asked;
  const { frame, saw } = job;
  const { thinnestEdgeMm } = ripChoices(job);
  const cut = layCut(
    { kerfMm: saw.kerfMm, straightAtMm: straightAtMm(job), thinnestEdgeMm },
    frame.sidingMm,
    girthsMm.map((girthMm) => orientation.hand * sawn.bevelAtDeg(girthMm)),
  );
  const wedgesAt = (girthMm: number): Wedges =>
    wedgesOf(cut, orientation.hand * sawn.bevelAtDeg(girthMm), orientation.thickEdge);
  const outerStretch: AlongGirth = (girthMm) =>
    1 - curvatureAt(girthMm) * outerDepthMm(wedgesAt(girthMm).outerMm, frame.mouldedFace);
  const innerStretch: AlongGirth = (girthMm) => {
    const { innerMm } = wedgesAt(girthMm);
    const flatMm = innerFlatDepthMm(innerMm, frame.mouldedFace, frame.mouldingMm);
    return 1 - curvatureAt(girthMm) * (flatMm + innerCentroidMm(innerMm, frame.mouldedFace));
  };
  const tooSharpMm = girthsMm.find((girthMm) => !(outerStretch(girthMm) > 0 && innerStretch(girthMm) > 0));
  if (tooSharpMm !== undefined) return { tooSharpMm };

  const lines = asked.isBent
    ? bentLines(asked, outerStretch, innerStretch, (girthMm) =>
        innerCentroidMm(wedgesAt(girthMm).innerMm, frame.mouldedFace),
      )
    : straightLines(girthsMm);
  const endsOf = (alongMm: readonly number[], stretch: AlongGirth) => wedgeEnds(job, girthsMm, alongMm, stretch);
  const ends = { outer: endsOf(lines.stockMm, outerStretch), inner: endsOf(lines.innerStockMm, innerStretch) };
  return { cut, lines, ends, outerStretch };
}

function straightLines(girthsMm: readonly number[]): Lines {
  const stockMm = girthsMm.map((girthMm) => girthMm - rowAt(girthsMm, 0));
  return { girthsMm, stockMm, innerStockMm: stockMm };
}

/** The inner line first with the section that lies beside the outer wedge's place, then with its own, registered both times. */
function bentLines(
  { girthsMm, wantedDeg, turnAt, sawn, curvatureAt }: ToLayOut,
  outerStretch: AlongGirth,
  innerStretch: AlongGirth,
  innerCentroidAt: AlongGirth,
): Lines {
  const stockMm = lengthsAlongMm(girthsMm, outerStretch);
  const sawnDeg = girthsMm.map((girthMm) => sawn.bevelAtDeg(girthMm));
  const registered = (innerMm: readonly number[]): readonly number[] => {
    const { shiftMm } = registerWedges({ stockMm, innerMm, sawnDeg, wantedDeg }, turnAt);
    return innerMm.map((mm) => mm + shiftMm);
  };
  const beside = registered(lengthsAlongMm(girthsMm, innerStretch));
  const ownGirthsMm = beside.map((mm) => interpolate(stockMm, girthsMm, mm));
  const own = byOwnSection(
    { girthsMm, alongMm: beside, curvaturesPerMm: girthsMm.map(curvatureAt) },
    girthsMm.map(innerCentroidAt),
    ownGirthsMm.map(innerCentroidAt),
  );
  return { girthsMm, stockMm, innerStockMm: registered(own) };
}

function wedgeEnds(job: Job, girthsMm: readonly number[], alongMm: readonly number[], stretch: AlongGirth): WedgeEnds {
  const { heelBeyondMm, headBeyondMm } = ripChoices(job);
  const heelMm = rowAt(alongMm, 0) - heelBeyondMm * stretch(rowAt(girthsMm, 0));
  const headMm = lastRow(alongMm) + headBeyondMm * stretch(lastRow(girthsMm));
  return { heelMm, headMm, lengthMm: headMm - heelMm };
}
