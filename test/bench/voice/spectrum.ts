import { fft, inverseFft } from './fft.ts';

/** A curve over frequency: `[Hz, dB]`, rising. Between the points dB goes evenly with the octaves; outside it stays as it is. */
export type Curve = readonly (readonly [number, number])[];

export function dbAt(curve: Curve, hz: number): number {
  const upper = curve.findIndex(([at]) => at >= hz);
  const [low, high] = [curve[upper - 1], curve[upper]];
  if (high === undefined) return curve.at(-1)?.[1] ?? 0;
  if (low === undefined) return high[1];
  return low[1] + ((high[1] - low[1]) * Math.log(hz / low[0])) / Math.log(high[0] / low[0]);
}

/** The samples with each frequency lifted by what the curve says, none of them delayed. */
export function shaped(samples: Float64Array, curve: Curve, rateHz: number): Float64Array {
  const n = 2 ** Math.ceil(Math.log2(samples.length));
  const re = new Float64Array(n);
  const im = new Float64Array(n);
  re.set(samples);
  fft(re, im);
  for (let i = 0; i < n; i += 1) {
    const gain = 10 ** (dbAt(curve, (Math.min(i, n - i) * rateHz) / n) / 20);
    re[i] = (re[i] ?? 0) * gain;
    im[i] = (im[i] ?? 0) * gain;
  }
  inverseFft(re, im);
  return re.slice(0, samples.length);
}
