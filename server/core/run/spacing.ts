import type { RunState } from './state.ts';

/** How far the mark that comes next lies from the one behind it, or from the one after it where none is behind; mm. */
export function spacingMm({ setup: { stations }, reached }: RunState): number {
  const last = stations.length - 1;
  const from = Math.min(Math.max(reached - 1, 0), last - 1);
  return (stations[from + 1]?.positionMm ?? 0) - (stations[from]?.positionMm ?? 0);
}
