/**
 * Integrated loudness of one channel after ITU-R BS.1770-4: K-weighting, blocks of 400 ms every 100 ms, those below -70 LUFS
 * and those more than 10 LU below the mean of the rest left out. The standard gives its filter for 48 kHz only; the corner
 * frequencies behind it are those that reproduce its table (derived: test/outside/audio.test.ts holds them against it).
 */
import { type Biquad, filter } from './biquad.ts';

const STEP_S = 0.1;
const STEPS_IN_BLOCK = 4;
const FLOOR_LUFS = -70;
const RELATIVE_LU = -10;

/** The two stages of K-weighting: the head's shelf, then the low cut. */
export function kWeighting(rateHz: number): readonly [Biquad, Biquad] {
  return [headShelf(rateHz), lowCut(rateHz)];
}

/**
 * LUFS; -Infinity for silence. What is shorter than one block is measured as if silence followed it.
 */
export function loudnessLufs(samples: Float64Array, rateHz: number): number {
  const step = Math.round(STEP_S * rateHz);
  const padded = new Float64Array(Math.max(samples.length, step * STEPS_IN_BLOCK));
  padded.set(samples);
  const energies = stepEnergies(kWeighting(rateHz).reduce(filter, padded), step);

  const powers = energies
    .slice(STEPS_IN_BLOCK - 1)
    .map((_, i) => sum(energies.slice(i, i + STEPS_IN_BLOCK)) / (step * STEPS_IN_BLOCK));
  const heard = powers.filter((power) => toLufs(power) > FLOOR_LUFS);
  const gate = toLufs(mean(heard)) + RELATIVE_LU;
  return toLufs(mean(heard.filter((power) => toLufs(power) > gate)));
}

const toLufs = (power: number): number => -0.691 + 10 * Math.log10(power);
const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
const mean = (values: readonly number[]): number => (values.length === 0 ? 0 : sum(values) / values.length);

/** Blocks overlap by whole steps: each step's squares are added up once. */
function stepEnergies(samples: Float64Array, step: number): readonly number[] {
  const energies: number[] = [];
  for (let from = 0; from + step <= samples.length; from += step) {
    energies.push(samples.subarray(from, from + step).reduce((total, sample) => total + sample * sample, 0));
  }
  return energies;
}

function headShelf(rateHz: number): Biquad {
  const gain = 10 ** (3.999843853973347 / 20);
  const { k, kQ, a0 } = prewarped(1681.974450955533, 0.7071752369554196, rateHz);
  const edge = gain ** 0.4996667741545416;
  return {
    b: [(gain + edge * kQ + k * k) / a0, (2 * (k * k - gain)) / a0, (gain - edge * kQ + k * k) / a0],
    a: [(2 * (k * k - 1)) / a0, (1 - kQ + k * k) / a0],
  };
}

function lowCut(rateHz: number): Biquad {
  const { k, kQ, a0 } = prewarped(38.13547087602444, 0.5003270373238773, rateHz);
  return { b: [1, -2, 1], a: [(2 * (k * k - 1)) / a0, (1 - kQ + k * k) / a0] };
}

function prewarped(hz: number, q: number, rateHz: number): { k: number; kQ: number; a0: number } {
  const k = Math.tan((Math.PI * hz) / rateHz);
  return { k, kQ: k / q, a0: 1 + k / q + k * k };
}
