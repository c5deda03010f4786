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

/**
 * Where a layer bent cold and dry breaks: its outermost fibre, stretched by t / (2 R), reaches MOR / MOE, so R / t = E / (2 MOR).
 * Strength and stiffness at 12 % moisture: FPL Wood Handbook, table 5-3a (Douglas-fir and larch read, oak and yellow-cedar
 * second-hand; strength of ash, locust and spruce from memory).
 */
const WOODS: readonly (readonly [name: RegExp, morKPa: number, moeMPa: number])[] = [
  [/\bdouglas\b/, 85_000, 13_400],
  [/\blarch\b/, 90_000, 12_900],
  [/\boak\b/, 105_000, 12_300],
  [/\byellow\W+cedar\b/, 77_000, 9_800],
  [/\bash\b/, 103_000, 12_000],
  [/\blocust\b/, 134_000, 14_100],
  [/\bsitka\b|\bspruce\b/, 70_000, 10_800],
];

/** R / t at which this wood breaks; undefined for a wood that is not in the table. */
export function breakingRadiusOverThickness(species: string): number | undefined {
  const wood = WOODS.find(([name]) => name.test(species.toLowerCase()));
  return wood === undefined ? undefined : wood[2] / (2 * (wood[1] / 1000));
}
