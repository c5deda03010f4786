/** The bend of both wedges at every mark, and of the layers that a cure makes of them. */
import type { Job } from '../job.ts';
import { STRAIGHT_MM } from '../rip/lineWander.ts';
import type { PlannedMark } from '../rip/plannedMark.ts';
import { type Edge, type EdgesMm, edgeOf } from '../rip/wedges.ts';
import { leastRadiusOverThickness } from './bendLimit.ts';
import { type FlatsAlong, type FlatsAt, flatCurvature } from './flats.ts';

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
  /** Of the moulded edge, positive as a bilge; null where it is straight. */
  readonly radiusMm: number | null;
  readonly outerMm: EdgesMm;
  readonly innerMm: EdgesMm;
  readonly layers: number;
}

/**
 * The limit is stated for the concave face of a layer: in a bilge its inboard one, in a reverse turn its outboard one, and there
 * for the edge at which that face lies nearest to the centre of the turn, for only a flat lies at one depth from edge to edge.
 * Depths are counted inboard from the moulded edge. The outer wedge's flat lies n e deep, with n layers each e thick at the moulded
 * edge, the inner one's at the moulding less n e; how the flat turns there, `flats.ts` says. From the flat the faces of the layers
 * go outboard or inboard at either edge by that edge's own thickness. Derived, no source.
 */
export function bendsOf(at: LayeredMark, flats: FlatsAlong, moulded: Edge, mouldingMm: number): readonly LayerBend[] {
  const bends = (wedge: 'outer' | 'inner', edgesMm: EdgesMm): LayerBend[] => {
    const radiusMm = flatRadiusMm(at, wedge, flats, moulded, mouldingMm);
    const thicknessMm = Math.max(...edgesMm);
    return Array.from({ length: at.layers }, (_, i) => {
      // Layers between the flat and this one's concave face, counted inboard.
      const concave = radiusMm === null || radiusMm > 0 ? 1 : 0;
      const inboard = wedge === 'outer' ? i + concave - at.layers : i + concave;
      const leastMm = radiusMm === null ? 0 : Math.min(...edgesMm.map((mm) => concaveMm(radiusMm, inboard * mm)));
      const bend = { mark: at.mark, wedge, layer: i + 1, thicknessMm, radiusMm: leastMm };
      return { ...bend, radiusOverThickness: leastMm / thicknessMm };
    });
  };
  return [...bends('outer', at.outerMm), ...bends('inner', at.innerMm)];
}

/** Radius of a face so far inboard of one that has this radius (positive as a bilge); 0 where the turn is too sharp for it. */
const concaveMm = (radiusMm: number, inboardMm: number): number =>
  Math.max(0, Math.sign(radiusMm) * (radiusMm - inboardMm));

/** The radius in which a wedge's flat lies, positive as a bilge, Infinity where it is straight; null where it cannot lie there. */
export function flatRadiusMm(
  { radiusMm, outerMm, innerMm, layers }: LayeredMark,
  wedge: 'outer' | 'inner',
  flats: FlatsAlong,
  moulded: Edge,
  mouldingMm: number,
): number | null {
  const edge = { curvaturePerMm: radiusMm === null ? 0 : 1 / radiusMm, curvatureSlope: flats.curvatureSlope };
  const depthMm =
    wedge === 'outer' ? layers * edgeOf(outerMm, moulded) : mouldingMm - layers * edgeOf(innerMm, moulded);
  const curvature = flatCurvature(edge, depthMm, flats[wedge]);
  return curvature === null ? null : 1 / curvature;
}

/** The inner wedge's edges where the mark's place of the frame falls on it. */
export const innerInFrame = (at: Pick<PlannedMark, 'innerEdgesMm' | 'innerInFrameMm'>): EdgesMm =>
  at.innerInFrameMm ?? at.innerEdgesMm;

/** A wedge as it comes off the saw, as one layer. */
export const wholeWedges = (at: PlannedMark): LayeredMark => ({
  mark: at.mark,
  radiusMm: at.radiusMm,
  outerMm: at.outerEdgesMm,
  innerMm: innerInFrame(at),
  layers: 1,
});

/** Both wedges at every mark where the frame or a wedge's flat turns, as they come off the saw. */
export const wedgeBends = (
  job: Pick<Job, 'frame'>,
  marks: readonly PlannedMark[],
  flatsAt: FlatsAt,
): readonly LayerBend[] => layerBends(job, marks.map(wholeWedges), flatsAt);

/** The same of layers. */
export const layerBends = (
  { frame }: Pick<Job, 'frame'>,
  marks: readonly LayeredMark[],
  flatsAt: FlatsAt,
): readonly LayerBend[] =>
  marks.flatMap((at) => {
    const flats = flatsAt(at.mark);
    if (flats === undefined) return [];
    const bends = bendsOf(at, flats, frame.mouldedFace, frame.mouldingMm);
    return bends.some(({ radiusMm }) => radiusMm < STRAIGHT_MM) ? bends : [];
  });

export const sharpestOf = <T extends Pick<LayerBend, 'radiusOverThickness'>>(bends: readonly T[]): T | undefined =>
  bends.reduce<T | undefined>(
    (a, b) => (a === undefined || b.radiusOverThickness < a.radiusOverThickness ? b : a),
    undefined,
  );

/** A hair of rounding does not spoil a bend. */
export const isWithinLimit = (bends: readonly Pick<LayerBend, 'radiusOverThickness'>[], species: string): boolean =>
  bends.every(({ radiusOverThickness }) => radiusOverThickness >= leastRadiusOverThickness(species) * (1 - 1e-9));

/**
 * The share of its strength that a layer keeps at this bend: 1 - 2000 (t / R)^2, never below 0. Civil Engineering Formulas,
 * McGraw-Hill, p. 167, eq. 6.29 (read).
 */
export const strengthKept = (radiusOverThickness: number): number =>
  radiusOverThickness <= 0 ? 0 : Math.max(0, 1 - 2000 / radiusOverThickness ** 2);

/**
 * Parallel laminations that fit between the wedges: whole ones, in the moulding less both wedges where they are thickest together,
 * so that the frame is nowhere deeper than its moulding. A hair of rounding does not cost a lamination.
 */
export function pliesBetween(mouldingMm: number, bothWedgesMm: number, laminationMm: number): number {
  return Math.max(0, Math.floor((mouldingMm - bothWedgesMm) / laminationMm + 1e-6));
}
