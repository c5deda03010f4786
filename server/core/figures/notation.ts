/** How one job writes its lengths and feeds: the user's own way, on every page, paper and line. */

/** Feet-inches-eighths is the notation of lines plans: 4-2-4 is 4 ft 2 4/8 in. */
export const NOTATIONS = ['mm', 'decimal inches', 'inches and fractions', 'feet-inches-eighths'] as const;
export type Notation = (typeof NOTATIONS)[number];

/** What a bare number counts in where lengths are written so. */
export const unitsOf = (notation: Notation): 'mm' | 'in' => (notation === 'mm' ? 'mm' : 'in');

/** That of a job in these units that does not show how it writes them; of plans, too, that were made before they told. */
export const plainNotation = (units: 'mm' | 'in'): Notation => (units === 'mm' ? 'mm' : 'inches and fractions');

/** For the head of a table: what its lengths are in. */
export const LENGTHS_ARE: Readonly<Record<Notation, string>> = {
  mm: 'lengths in mm',
  'decimal inches': 'lengths in inches',
  'inches and fractions': 'lengths in inches, to the nearest 1/32',
  'feet-inches-eighths': 'lengths in feet-inches-eighths (+- is 1/32 in more, + 1/16, ++ 3/32)',
};
