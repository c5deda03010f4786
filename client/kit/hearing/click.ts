const LENGTH_S = 0.04;
const HZ = 1500;
/** The sound that a person answers with a tap: all at once, gone at once, within what a headset passes on. */
export function clickSamples(rateHz: number): Float32Array<ArrayBuffer> {
  const count = Math.round(LENGTH_S * rateHz);
  return Float32Array.from(
    { length: count },
    (_, i) => 0.8 * Math.exp((-6 * i) / count) * Math.sin((2 * Math.PI * HZ * i) / rateHz),
  );
}
