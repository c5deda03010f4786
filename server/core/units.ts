/** Conversions between the units that names carry. Every angle in the program is in degrees and every length in millimetres. */

/** Exactly 25.4 mm: the international inch, agreed in 1959. */
export const MM_PER_INCH = 25.4;

export const degToRad = (deg: number): number => (deg * Math.PI) / 180;
export const radToDeg = (rad: number): number => (rad * 180) / Math.PI;
export const tanDeg = (deg: number): number => Math.tan(degToRad(deg));
export const cosDeg = (deg: number): number => Math.cos(degToRad(deg));

/** Metres a minute, as a shop states a feed, into millimetres a millisecond, as the run reckons it. */
export const mPerMinToMmPerMs = (mPerMin: number): number => mPerMin / 60;
export const mmPerMsToMPerMin = (mmPerMs: number): number => mmPerMs * 60;
