import type { Curve } from './spectrum.ts';

/**
 * What an earmuff lets through, dB at the octave bands: the mean attenuation of a muff in a worked example of the octave-band
 * method (ISO 4869-2) in a sound level meter's handbook (read: 125 Hz to 8 kHz: 13, 20, 33, 35, 38, 47, 41 dB).
 */
export const EARMUFF: Curve = [
  [125, -13],
  [250, -20],
  [500, -33],
  [1000, -35],
  [2000, -38],
  [4000, -47],
  [8000, -41],
];

/**
 * The ear's own noise under the muff (blood, breath, muscles): low and rumbling, some 50 LU under the call outside. An assumption.
 */
export const OWN_NOISE_LU = -50;
export const OWN_NOISE: Curve = [
  [63, 0],
  [8000, -42],
];
