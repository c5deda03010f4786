/**
 * Whether the wood can have come to a mark: by the way from what spoke for its place before, at the fastest feed that is believed,
 * and by what a count of travel knows. What cannot be is refused and told; the run stays as it was.
 */

import { type Step, stationAt } from '../engine/effects.ts';
import type { Reckoning, RunState } from '../engine/state.ts';
import { type Ceiling, ceilingOf } from './believableFeed.ts';
import { isMoving } from './moving.ts';
import { positionAt, uncertaintyAt } from './position.ts';

/** A count that has not spoken for so long knows nothing of now. */
const FRESH_COUNT_MS = 500;
/** A foot is so early at most (three times the tenth of a second that the track takes for its error), and a count so wrong. */
const EARLY_MS = 300;
const COUNT_SDS = 6;

/** The run, with the wood known to have been at a place. Of all that was told the one is kept that lets the wood come least far. */
export function withEarned(state: RunState, positionMm: number, atMs: number): RunState {
  const { earned } = state;
  const ceiling = ceilingNow(state);
  if (ceiling === null) return state;
  const isTighter = earned === null || positionMm <= earned.positionMm + ceiling.mmPerMs * (atMs - earned.atMs);
  return isTighter ? { ...state, earned: { positionMm, atMs } } : state;
}

/** The refusal of a press at a station where the wood cannot be at this moment; null where it can. */
export function pressedTooSoon(state: RunState, index: number, atMs: number): Step | null {
  const { mark, positionMm } = stationAt(state, index);
  if (isBeyondCeiling(state, positionMm, atMs))
    return tooSoon(
      state,
      mark,
      `Mark ${mark} cannot be at the blade yet: no wood is fed so fast. This press is not counted. Press again when mark ${mark} is there.`,
    );
  if (isFarByCount(state, index, atMs))
    return tooSoon(
      state,
      mark,
      `By the travel count mark ${mark} is not at the blade yet. This press is not counted. Press again when mark ${mark} is there. If the count is wrong: stop feed, resume, then press.`,
    );
  return null;
}

/** The same for a mark that was read, its line `offsetMm` past the blade. */
export function readTooSoon(state: RunState, index: number, offsetMm: number, atMs: number): Step | null {
  const { mark, positionMm } = stationAt(state, index);
  if (!isBeyondCeiling(state, positionMm + offsetMm, atMs)) return null;
  return tooSoon(
    state,
    mark,
    `Mark ${mark} was read, and the wood cannot have come so far yet. It is not counted. Is this the right strip?`,
  );
}

const tooSoon = (state: RunState, mark: number, message: string): Step => [
  state,
  [{ kind: 'refuse', code: 'too-soon', message, mark }],
];

/** Farther than the fastest feed and a foot's error can have brought it. */
function isBeyondCeiling(state: RunState, positionMm: number, atMs: number): boolean {
  const { earned } = state;
  const ceiling = ceilingNow(state);
  if (earned === null || ceiling === null) return false;
  return positionMm > earned.positionMm + ceiling.mmPerMs * (atMs - earned.atMs) + ceiling.slackMm;
}

/** A count may know of a faster feed: then that is what is believed. */
function ceilingNow(state: RunState): Ceiling | null {
  const ceiling = ceilingOf(state.setup);
  const speed = state.reckoning?.by === 'travel' ? (state.reckoning.speedMmPerMs ?? 0) : 0;
  return ceiling === null || 2 * speed <= ceiling.mmPerMs ? ceiling : { ...ceiling, mmPerMs: 2 * speed };
}

/**
 * A count that was placed by a mark since the feed went on, and has watched the wood ever since, is believed over a foot that
 * comes in the first half of the way. After a stop the foot is believed.
 */
function isFarByCount(state: RunState, index: number, atMs: number): boolean {
  const { reckoning, setup } = state;
  if (setup.fastestMPerMin === undefined || reckoning === null || index === 0) return false;
  if (!isPlacedCount(reckoning, atMs)) return false;
  const { positionMm } = stationAt(state, index);
  const halfMm = (positionMm - stationAt(state, index - 1).positionMm) / 2;
  const speed = reckoning.speedMmPerMs ?? 0;
  const doubtMm = EARLY_MS * speed + COUNT_SDS * uncertaintyAt(reckoning, atMs);
  return positionMm - positionAt(reckoning, atMs) > Math.max(halfMm, doubtMm);
}

function isPlacedCount(reckoning: Reckoning, atMs: number): boolean {
  const { by, travel, track } = reckoning;
  const fix = track.now?.fix ?? null;
  if (by !== 'travel' || travel === null || fix === null || !isMoving(reckoning)) return false;
  return fix.atMs >= travel.sinceMs && atMs - travel.heardAtMs < FRESH_COUNT_MS;
}
