/** No length, angle, time or feed of a shop is meant so finely: what is nearer to 0, and is not 0, is a slip of the pen. */
export const FINEST = 0.000001;

export const isTooFine = (value: number): boolean => value !== 0 && Math.abs(value) < FINEST;

export const WANTED_COARSER = '0, or at least 0.000001 off it';
