/**
 * How sharply a layer may be bent: the radius must be at least 100 times the thickness for hardwoods and southern pine and 125
 * times for other softwoods (Civil Engineering Formulas, McGraw-Hill, p. 167, eq. 6.29).
 */

/** Words by which a hardwood, or southern pine, is known in a species' name. A name without one is held to the stricter limit. */
const HARDER = new Set(
  `acacia afrormosia afzelia apitong ash balau beech birch bubinga cherry chestnut danta elm eucalyptus greenheart hackberry
  hickory idigbo ipe iroko ironbark jarrah karri keruing khaya locust mahogany makore maple meranti merbau mulberry oak okoume
  opepe osage padauk pecan poplar purpleheart robinia sapele sycamore teak utile walnut wych`.split(/\s+/),
);
const SOUTHERN_PINE = /\b(southern|longleaf|shortleaf|loblolly|slash)\b.*\bpine\b/;

/** A name without such a word is not one. */
export const isHardwood = (species: string): boolean =>
  species
    .toLowerCase()
    .split(/[^a-z]+/)
    .some((word) => HARDER.has(word));

/** Smallest radius over thickness for this wood. */
export const leastRadiusOverThickness = (species: string): 100 | 125 =>
  isHardwood(species) || SOUTHERN_PINE.test(species.toLowerCase()) ? 100 : 125;
