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
