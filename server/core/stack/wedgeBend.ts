/** The bend of both wedges at every mark, and of the layers that a cure makes of them. */
import type { Job } from '../job.ts';
import type { PlannedMark } from '../plannedMark.ts';
import { type Edge, type EdgesMm, edgeOf, otherEdge } from '../rip/wedges.ts';
import { leastRadiusOverThickness } from './bendLimit.ts';

export interface LayerBend {
  readonly mark: number;
  readonly wedge: 'outer' | 'inner';
  /** Which layer of the wedge, 1 the outermost in the frame; 1 of 1 where the wedge is one piece. */
  readonly layer: number;
  /** Thick edge. */
  readonly thicknessMm: number;
  /** Of the layer's own concave face; 0 where the turn is too sharp for it to lie there at all. */
  readonly radiusMm: number;
  readonly radiusOverThickness: number;
}

/** Both wedges at a mark as equal layers one on the other: each layer's thickness at [forward, aft], and how many. */
export interface LayeredMark {
  readonly mark: number;
  /** Of the moulded edge, positive as a bilge. */
  readonly radiusMm: number;
  readonly outerMm: EdgesMm;
  readonly innerMm: EdgesMm;
  readonly layers: number;
}

/**
 * The limit is stated for the concave face of a layer. Counted from the moulded edge inboard, the outer wedge's layers lie at the
 * depths 0, e, 2e ..., the inner one's end at the depth of the moulding: in a bilge the concave face of a layer is its inboard
 * one, in a reverse turn its outboard one.
 */
export function bendsOf(at: LayeredMark, moulded: Edge, mouldingMm: number): readonly LayerBend[] {
  const bends = (wedge: 'outer' | 'inner', edgesMm: EdgesMm): LayerBend[] => {
    const edgeMm = edgeOf(edgesMm, moulded);
    const thicknessMm = Math.max(edgeMm, edgeOf(edgesMm, otherEdge(moulded)));
    const startMm = wedge === 'outer' ? 0 : mouldingMm - at.layers * edgeMm;
    return Array.from({ length: at.layers }, (_, i) => {
      const depthMm = startMm + (i + (at.radiusMm > 0 ? 1 : 0)) * edgeMm;
      const radiusMm = Math.max(0, Math.abs(at.radiusMm) - Math.sign(at.radiusMm) * depthMm);
      const bend = { mark: at.mark, wedge, layer: i + 1, thicknessMm, radiusMm };
      return { ...bend, radiusOverThickness: radiusMm / thicknessMm };
    });
  };
  return [...bends('outer', at.outerMm), ...bends('inner', at.innerMm)];
}

/** The inner wedge's edges where the mark's place of the frame falls on it. */
export const innerInFrame = (at: Pick<PlannedMark, 'innerEdgesMm' | 'innerInFrameMm'>): EdgesMm =>
  at.innerInFrameMm ?? at.innerEdgesMm;

/** Both wedges at every mark where the frame turns, as they come off the saw. */
export const wedgeBends = (job: Pick<Job, 'frame'>, marks: readonly PlannedMark[]): readonly LayerBend[] =>
  marks.flatMap((at) =>
    at.radiusMm === null
      ? []
      : bendsOf(
          { mark: at.mark, radiusMm: at.radiusMm, outerMm: at.outerEdgesMm, innerMm: innerInFrame(at), layers: 1 },
          job.frame.mouldedFace,
          job.frame.mouldingMm,
        ),
  );

export const sharpestOf = <T extends Pick<LayerBend, 'radiusOverThickness'>>(bends: readonly T[]): T | undefined =>
  bends.reduce<T | undefined>(
    (a, b) => (a === undefined || b.radiusOverThickness < a.radiusOverThickness ? b : a),
    undefined,
  );

/** A hair of rounding does not spoil a bend. */
export const isWithinLimit = (bends: readonly LayerBend[], species: string): boolean =>
  bends.every(({ radiusOverThickness }) => radiusOverThickness >= leastRadiusOverThickness(species) * (1 - 1e-9));

/**
 * The share of its strength that a layer keeps at this bend: 1 - 2000 (t / R)^2, never below 0. Civil Engineering Formulas,
 * McGraw-Hill, p. 167, eq. 6.29 (read).
 */
export const strengthKept = (radiusOverThickness: number): number =>
  radiusOverThickness <= 0 ? 0 : Math.max(0, 1 - 2000 / radiusOverThickness ** 2);
