import { steepestBetween } from './profile.ts';
import { callTextAt, durationMs } from './say.ts';
import type { RunState } from './state.ts';
import { stationAt } from './turn.ts';

/** So many marks ahead are looked at: a feed is eased in a second or two, and what lies farther on can wait. */
const MARKS_AHEAD = 2;
/** Nearer than this a mark is as good as there: what is late by so little wood leaves nothing to see. */
const NEAR_MM = 10;
/** A hand that follows the display looks so far ahead, and so far the wheel must be able to go with the wood. */
const FOLLOWED_MS = 3000;

/**
 * The fastest feed, mm/ms, at which from here on every call that comes can be said, reacted to and turned to before its mark;
 * where the tilt is followed, at which the wheel can go with it. Null while not feeding, or where nothing limits it.
 */
export function safeFeed(state: RunState, positionMm: number, atMs: number): number | null {
  if (state.phase !== 'feeding') return null;
  const least = isFollowing(state) ? wheelLimit(state, positionMm) : callLimit(state, positionMm, atMs);
  return Number.isFinite(least) ? least : null;
}

const isFollowing = ({ setup, reckoning }: RunState): boolean =>
  setup.routine === 'following' && reckoning?.by === 'travel';

function wheelLimit({ setup, reckoning }: RunState, positionMm: number): number {
  const speed = reckoning?.speedMmPerMs ?? setup.crew.feedMPerMin / 60;
  const degPerMm = steepestBetween(setup, positionMm, positionMm + Math.max(NEAR_MM, speed * FOLLOWED_MS));
  return (setup.crew.turnsPerS * setup.degreesPerTurn) / 1000 / degPerMm;
}

function callLimit(state: RunState, positionMm: number, atMs: number): number {
  const { reached, setup } = state;
  const last = Math.min(reached + MARKS_AHEAD, setup.stations.length - 1);
  let least = Number.POSITIVE_INFINITY;
  for (let index = reached; index <= last; index += 1) {
    const fromMm = index === reached ? positionMm : stationAt(state, index - 1).positionMm;
    const wayMm = Math.max(NEAR_MM, stationAt(state, index).positionMm - fromMm);
    least = Math.min(least, wayMm / stillNeededMs(state, index, atMs));
  }
  return least;
}

/** Words, reaction and wheel, as far as they are not over yet. */
function stillNeededMs(state: RunState, index: number, atMs: number): number {
  const { setup, turningTo, speaking } = state;
  const reactionMs = setup.crew.reactionS * 1000;
  if (index > turningTo) return durationMs(state, callTextAt(state, index)) + reactionMs + wheelMs(state, index);
  if (index < turningTo) return 0;
  const saidAtMs = speaking === null ? atMs : speaking.startsAtMs + speaking.durationMs;
  return Math.max(0, saidAtMs + reactionMs + wheelMs(state, index) - atMs);
}

function wheelMs(state: RunState, index: number): number {
  const { setup } = state;
  const before = stationAt(state, Math.max(0, index - 1)).callDeg;
  const turns = Math.abs(stationAt(state, index).callDeg - before) / setup.degreesPerTurn;
  return (turns / setup.crew.turnsPerS) * 1000;
}
