/**
 * Second-order filters, after Robert Bristow-Johnson, "Cookbook formulae for audio equalizer biquad filter coefficients"
 * (W3C Working Group Note "Audio EQ Cookbook", 2021). Frequencies and rates in Hz, gains in dB.
 */

/** y = b0 x + b1 x' + b2 x'' - a1 y' - a2 y'', a0 divided out. */
export interface Biquad {
  readonly b: readonly [number, number, number];
  readonly a: readonly [number, number];
}

/** Falls by 12 dB an octave below `hz`; at `hz` itself the gain is `q`. */
export function highPass(hz: number, q: number, rateHz: number): Biquad {
  const { cos, alpha } = corner(hz, q, rateHz);
  return overA0([(1 + cos) / 2, -(1 + cos), (1 + cos) / 2], [1 + alpha, -2 * cos, 1 - alpha]);
}

/** Leaves what is far below `hz` alone and lifts what is far above by `gainDb`; at `hz` by half of it. */
export function highShelf(hz: number, gainDb: number, q: number, rateHz: number): Biquad {
  const { cos, alpha } = corner(hz, q, rateHz);
  const a = 10 ** (gainDb / 40);
  const slope = 2 * Math.sqrt(a) * alpha;
  return overA0(
    [a * (a + 1 + (a - 1) * cos + slope), -2 * a * (a - 1 + (a + 1) * cos), a * (a + 1 + (a - 1) * cos - slope)],
    [a + 1 - (a - 1) * cos + slope, 2 * (a - 1 - (a + 1) * cos), a + 1 - (a - 1) * cos - slope],
  );
}

/** Runs the filter over the samples, from rest. */
export function filter(samples: Float64Array, { b: [b0, b1, b2], a: [a1, a2] }: Biquad): Float64Array {
  let x1 = 0;
  let x2 = 0;
  let y1 = 0;
  let y2 = 0;
  return samples.map((x) => {
    const y = b0 * x + b1 * x1 + b2 * x2 - a1 * y1 - a2 * y2;
    x2 = x1;
    x1 = x;
    y2 = y1;
    y1 = y;
    return y;
  });
}

function corner(hz: number, q: number, rateHz: number): { cos: number; alpha: number } {
  if (!(hz > 0 && hz < rateHz / 2))
    throw new RangeError(`a corner at ${hz} Hz does not fit ${rateHz} samples a second`);
  const w0 = (2 * Math.PI * hz) / rateHz;
  return { cos: Math.cos(w0), alpha: Math.sin(w0) / (2 * q) };
}

type Triple = readonly [number, number, number];
const overA0 = (b: Triple, [a0, a1, a2]: Triple): Biquad => ({
  b: [b[0] / a0, b[1] / a0, b[2] / a0],
  a: [a1 / a0, a2 / a0],
});
