/**
 * The noise of a band saw at work, drawn anew from a seed. No published spectrum of such a saw was found: what follows is an
 * assumption, chosen on the hard side, because its strong part lies where consonants lie.
 */
import { amplify } from '../../../audio/pcm/format.ts';
import { loudnessLufs } from '../../../audio/pcm/loudness.ts';
import { draws } from '../../../server/core/numeric/draws.ts';
import { type Curve, shaped } from './spectrum.ts';

/** dB of one hertz's width, against that at 2 kHz: strong from 1 to 5 kHz, falling by 6 to 9 dB an octave on either side. */
export const BROADBAND: Curve = [
  [63, -24],
  [125, -18],
  [250, -12],
  [500, -6],
  [1000, 0],
  [5000, 0],
  [8000, -6],
];
/** Teeth 20 mm apart on a blade that runs 23 m a second pass 1,150 times a second; their hum is as strong as a quarter of the rest. */
export const TOOTH_HZ = 1150;
const HUM_POWER = 0.25;
/** Of the hum and its overtones, one octave and a twelfth up. */
const OVERTONES = [1, 0.5, 0.25] as const;
/** A wheel turns some seven times a second, and the hum swells and wanders with it. */
const WHEEL_HZ = 7;
const SWELL = 0.3;
const WANDER = 0.004;

/** `seconds` of it at `rateHz`, at a loudness of `lufs` (BS.1770). */
export function sawNoise(seed: number, seconds: number, rateHz: number, lufs: number): Float64Array {
  const draw = draws(seed);
  const white = Float64Array.from({ length: Math.round(seconds * rateHz) }, () => draw.normal());
  const rush = toPower(shaped(white, BROADBAND, rateHz), 1);
  const hum = toPower(humOf(rush.length, rateHz), HUM_POWER);
  const both = rush.map((sample, i) => sample + (hum[i] ?? 0));
  return amplify(both, 10 ** ((lufs - loudnessLufs(both, rateHz)) / 20));
}

function humOf(length: number, rateHz: number): Float64Array {
  let phase = 0;
  return Float64Array.from({ length }, (_, i) => {
    const wheel = Math.sin((2 * Math.PI * WHEEL_HZ * i) / rateHz);
    phase += (2 * Math.PI * TOOTH_HZ * (1 + WANDER * wheel)) / rateHz;
    return (1 + SWELL * wheel) * OVERTONES.reduce((sum, part, k) => sum + part * Math.sin((k + 1) * phase), 0);
  });
}

function toPower(samples: Float64Array, power: number): Float64Array {
  const found = samples.reduce((sum, s) => sum + s * s, 0) / samples.length;
  return amplify(samples, Math.sqrt(power / found));
}
