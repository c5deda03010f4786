/** Longer than a period of a deep voice, shorter than any gap that an ear would notice. */
const WINDOW_S = 0.01;

/** The longest stretch inside a clip in which every 10 ms stay `floorDb` or more under its loudest 10 ms, in seconds. */
export function longestSilenceS(samples: Float64Array, rateHz: number, floorDb: number): number {
  const size = Math.round(WINDOW_S * rateHz);
  const powers = Array.from({ length: Math.floor(samples.length / size) }, (_, i) =>
    samples.subarray(i * size, (i + 1) * size).reduce((sum, s) => sum + s * s, 0),
  );
  const floor = Math.max(...powers) * 10 ** (floorDb / 10);
  const inside = powers.slice(
    powers.findIndex((power) => power > floor),
    powers.findLastIndex((power) => power > floor) + 1,
  );
  let longest = 0;
  let run = 0;
  for (const power of inside) {
    run = power > floor ? 0 : run + 1;
    longest = Math.max(longest, run);
  }
  return longest * WINDOW_S;
}
