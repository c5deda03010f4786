/** The bend of both wedges at every mark, and of the layers that a cure makes of them. */
import type { Job } from '../job.ts';
import type { PlannedMark } from '../plannedMark.ts';
import { type Edge, type EdgesMm, edgeOf } from '../rip/wedges.ts';
import { leastRadiusOverThickness } from './bendLimit.ts';

export interface LayerBend {
  readonly mark: number;
  readonly wedge: 'outer' | 'inner';
  /** Which layer of the wedge, 1 the outermost in the frame; 1 of 1 where the wedge is one piece. */
  readonly layer: number;
  /** Thick edge. */
  readonly thicknessMm: number;
  /** The smallest of the layer's own concave face, from edge to edge; 0 where the turn is too sharp for it to lie there at all. */
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
 * The limit is stated for the concave face of a layer: in a bilge its inboard one, in a reverse turn its outboard one, and there
 * for the edge at which that face lies nearest to the centre of the turn, for only a flat lies at one depth from edge to edge.
 * Depths are counted inboard from the moulded edge. The outer wedge's flat lies n e deep, with n layers each e thick at the moulded
 * edge, the inner one's at the moulding less n e; from the flat the faces of the layers go outboard or inboard at either edge by
 * that edge's own thickness. Derived, no source.
 */
export function bendsOf(at: LayeredMark, moulded: Edge, mouldingMm: number): readonly LayerBend[] {
  const bends = (wedge: 'outer' | 'inner', edgesMm: EdgesMm): LayerBend[] => {
    const allMm = at.layers * edgeOf(edgesMm, moulded);
    const thicknessMm = Math.max(...edgesMm);
    return Array.from({ length: at.layers }, (_, i) => {
      const face = i + (at.radiusMm > 0 ? 1 : 0);
      const radii = edgesMm.map((edgeMm) => {
        const depthMm = wedge === 'outer' ? allMm - (at.layers - face) * edgeMm : mouldingMm - allMm + face * edgeMm;
        return Math.abs(at.radiusMm) - Math.sign(at.radiusMm) * depthMm;
      });
      const radiusMm = Math.max(0, Math.min(...radii));
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
