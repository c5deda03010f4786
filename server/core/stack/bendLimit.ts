/**
 * How sharply a layer may be bent: the radius must be at least 100 times the thickness for hardwoods and southern pine and 125
 * times for other softwoods (Civil Engineering Formulas, McGraw-Hill, p. 167, eq. 6.29).
 */
import { type Edge, type EdgesMm, edgeOf, otherEdge } from '../rip/wedges.ts';

/** Words by which a hardwood, or southern pine, is known in a species' name. A name without one is held to the stricter limit. */
const HARDER = new Set(
  `acacia afrormosia afzelia apitong ash balau beech birch bubinga cherry chestnut danta elm eucalyptus greenheart hackberry
  hickory idigbo ipe iroko ironbark jarrah karri keruing khaya locust mahogany makore maple meranti merbau mulberry oak okoume
  opepe osage padauk pecan poplar purpleheart robinia sapele sycamore teak utile walnut wych`.split(/\s+/),
);
const SOUTHERN_PINE = /\b(southern|longleaf|shortleaf|loblolly|slash)\b.*\bpine\b/;

/** Smallest radius over thickness for this wood. */
export function leastRadiusOverThickness(species: string): 100 | 125 {
  const name = species.toLowerCase();
  const isHarder = name.split(/[^a-z]+/).some((word) => HARDER.has(word));
  return isHarder || SOUTHERN_PINE.test(name) ? 100 : 125;
}

export interface Bend {
  readonly wedge: 'outer' | 'inner';
  /** Thick edge of the wedge there. */
  readonly thicknessMm: number;
  /** Of the wedge's own concave face; 0 where the turn is too sharp for the wedge to lie in it at all. */
  readonly radiusMm: number;
}

/**
 * Both wedges where the moulded edge has the radius `radiusMm` (positive as a bilge). The limit is stated for the concave face of
 * a layer: in a bilge that is the outer wedge's flat and the inner wedge's sawn face, in a reverse turn the outer wedge's sawn
 * face and the inner wedge's flat.
 */
export function bendsAt(
  radiusMm: number,
  wedges: { readonly outerMm: EdgesMm; readonly innerMm: EdgesMm },
  moulded: Edge,
  mouldingMm: number,
): readonly [Bend, Bend] {
  const outer = edgeOf(wedges.outerMm, moulded);
  const inner = edgeOf(wedges.innerMm, moulded);
  const depths = radiusMm > 0 ? { outer, inner: mouldingMm } : { outer: 0, inner: mouldingMm - inner };
  const turn = Math.sign(radiusMm);
  const concave = (depthMm: number) => Math.max(0, Math.abs(radiusMm) - turn * depthMm);
  const thick = (edgesMm: EdgesMm) => Math.max(edgeOf(edgesMm, moulded), edgeOf(edgesMm, otherEdge(moulded)));
  return [
    { wedge: 'outer', thicknessMm: thick(wedges.outerMm), radiusMm: concave(depths.outer) },
    { wedge: 'inner', thicknessMm: thick(wedges.innerMm), radiusMm: concave(depths.inner) },
  ];
}
