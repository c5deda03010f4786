/** A row of figures for a list of times: how many, and the times that half, 95, 99 in a hundred and all of them stay under. */
export function spread(what: string, timesMs: readonly number[]): string {
  if (timesMs.length === 0) return `${what}: nothing was measured`;
  const sorted = timesMs.toSorted((a, b) => a - b);
  const at = (share: number): string =>
    (sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)] ?? 0).toFixed(2);
  return `${what.padEnd(58)} n ${String(sorted.length).padStart(4)}   p50 ${at(0.5)}   p95 ${at(0.95)}   p99 ${at(0.99)}   worst ${at(1)} ms`;
}
