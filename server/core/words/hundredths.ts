/** Degrees in whole hundredths (never -0): takes the dust of binary fractions off a readout's figure. */
export const hundredths = (deg: number): number => Math.round(deg * 100) + 0;
