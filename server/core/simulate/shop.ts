/**
 * The plain routine of the shop, to compare with: the number is called as its mark reaches the blade, and turned to then
 * (common practice, no source).
 */
import type { Call } from '../run/engine/events.ts';
import type { RunSetup } from '../run/engine/state.ts';

export interface Shop {
  /** Where the wood lies when the sawyer takes each mark to be at the blade. */
  readonly places: readonly number[];
  /** The station that he calls next. */
  next: number;
  isStopped: boolean;
}

export function shopCall(setup: RunSetup, index: number, atMs: number): Call | null {
  const station = setup.stations[index];
  const text = setup.callTexts[index];
  if (station === undefined || text === undefined) return null;
  return {
    id: `shop ${index} ${atMs}`,
    to: 'tilt hand',
    text,
    mark: station.mark,
    deg: station.callDeg,
    startsAtMs: atMs,
    durationMs: setup.durationsMs[text] ?? 0,
  };
}
