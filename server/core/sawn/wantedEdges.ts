/** What the frame asks of one half of the stock, in the stock's own measure. Lengths in mm, bevels in degrees. */

import { interpolate } from '../numeric/interpolate.ts';
import type { Plan } from '../plan/plan.ts';
import type { Cut } from '../rip/cut.ts';
import { lastRow, rowAt } from '../rowAt.ts';

/** The half at the reference face becomes the outer wedge, the other one the inner. */
export type Half = 'outer' | 'inner';

export interface WantedEdges {
  readonly half: Half;
  /** Where the frame begins and ends along it: cut lengths beyond the marks are part of it. */
  readonly heelMm: number;
  readonly headMm: number;
  /** As far as the stock was to reach beyond. */
  readonly stockFromMm: number;
  readonly stockToMm: number;
  readonly marks: readonly { readonly mark: number; readonly alongMm: number }[];
  readonly cut: Cut;
  /** Of the wedge: the one that is up on the table, and so grows with the tilt on the outer half. */
  readonly upEdge: 'forward' | 'aft';
  readonly hand: 1 | -1;
  readonly leads: 'heel' | 'head';
  readonly thinnestEdgeMm: number;
  readonly mouldedEdge: 'forward' | 'aft';
  /** The bevel that the frame asks there; beyond its ends the end bevels hold. */
  bevelDeg(alongMm: number): number;
}

/** Undefined for a plan of before, which does not tell how the cut lies. */
export function askedOf(plan: Plan, half: Half): WantedEdges | undefined {
  const { rip, marks, curve, frame, stock, saw } = plan;
  if (rip === undefined) return undefined;
  const alongOf = (mark: (typeof marks)[number]): number => (half === 'outer' ? mark.stockMm : mark.innerStockMm);
  const girthsMm = marks.map(({ girthMm }) => girthMm);
  const alongMm = marks.map(alongOf);
  const places = curve.filter(({ girthMm }) => girthMm >= rowAt(girthsMm, 0) && girthMm <= lastRow(girthsMm));
  const xs = places.map(({ girthMm }) => interpolate(girthsMm, alongMm, girthMm));
  const bevels = places.map(({ bevelDeg }) => bevelDeg);
  const { heelMm, headMm } = rip.ends[half];
  const { outer, inner } = rip.ends;
  return {
    half,
    heelMm,
    headMm,
    stockFromMm: Math.min(outer.heelMm, inner.heelMm) - rip.endWasteMm,
    stockToMm: Math.max(outer.headMm, inner.headMm) + rip.endWasteMm,
    marks: marks.map((mark) => ({ mark: mark.mark, alongMm: alongOf(mark) })),
    cut: {
      sidingMm: frame.sidingMm,
      kerfMm: saw.kerfMm,
      straightAtMm: rip.straightAtMm,
      lineMm: rip.lineMm,
      thicknessMm: stock.thicknessMm,
    },
    upEdge: plan.thickEdge,
    hand: plan.hand,
    leads: plan.leads,
    thinnestEdgeMm: rip.thinnestEdgeMm,
    mouldedEdge: frame.mouldedFace,
    bevelDeg: (at) => interpolate(xs, bevels, at),
  };
}
