/**
 * The Wigley parabolic hull y = (B/2)(1 - (2x/L)^2)(1 - (z/T)^2), z down from the waterline, L 10, B 1, T 0.625
 * (formula: read; everything below: derived from it). In mm, as a boat 10 m long.
 */
import { radToDeg } from '../../server/core/units.ts';

const [LENGTH, BEAM, DEPTH] = [10_000, 1000, 625];
const fullness = (x: number): number => (BEAM / 2) * (1 - ((2 * x) / LENGTH) ** 2);

/** tan b = |f_x| / sqrt(1 + f_z^2): off square, square to the moulded edge. */
export function exactBevelDeg(x: number, downMm: number): number {
  const slopeX = ((BEAM / 2) * 8 * x * (1 - (downMm / DEPTH) ** 2)) / LENGTH ** 2;
  const slopeZ = (2 * fullness(x) * downMm) / DEPTH ** 2;
  return radToDeg(Math.atan(Math.abs(slopeX) / Math.hypot(1, slopeZ)));
}

/** The section at x is the parabola y = a (1 - (z/T)^2) from the keel, z = T, up to the waterline. */
export const halfBreadthMm = (x: number, downMm: number): number => fullness(x) * (1 - (downMm / DEPTH) ** 2);
export const keelDownMm = DEPTH;

/** From the waterline down: integral of sqrt(1 + (k z)^2), k = 2a/T^2, is z sqrt(1 + (kz)^2) / 2 + asinh(kz) / (2k). */
const downwardMm = (x: number, downMm: number): number => {
  const k = (2 * fullness(x)) / DEPTH ** 2;
  return (downMm * Math.hypot(1, k * downMm)) / 2 + Math.asinh(k * downMm) / (2 * k);
};
export const girthFromKeelMm = (x: number, downMm: number): number => downwardMm(x, DEPTH) - downwardMm(x, downMm);

/** |y''| / (1 + y'^2)^(3/2), positive: the section turns upward as a bilge does. */
export const exactCurvaturePerMm = (x: number, downMm: number): number => {
  const k = (2 * fullness(x)) / DEPTH ** 2;
  return k / Math.hypot(1, k * downMm) ** 3;
};
