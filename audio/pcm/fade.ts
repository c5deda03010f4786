/** Raised-cosine fades of `inSamples` and `outSamples` at the two ends, so that neither clicks; they never overlap. */
export function fade(samples: Float64Array, inSamples: number, outSamples: number): Float64Array {
  const rise = Math.min(inSamples, Math.floor(samples.length / 2));
  const fall = Math.min(outSamples, Math.floor(samples.length / 2));
  return samples.map((s, i) => {
    const left = samples.length - 1 - i;
    if (i < rise) return s * ramp(i / rise);
    return left < fall ? s * ramp(left / fall) : s;
  });
}

const ramp = (part: number): number => (1 - Math.cos(Math.PI * part)) / 2;
