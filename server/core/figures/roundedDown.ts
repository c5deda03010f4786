/** To a hundredth, or to two figures of what is less than a tenth: never more than it is, and never nothing. */
export function roundedDown(mPerMin: number): number {
  const step = mPerMin >= 0.1 ? 0.01 : 10 ** (Math.floor(Math.log10(mPerMin)) - 1);
  return Number((Math.floor(mPerMin / step + 1e-9) * step).toPrecision(12));
}
