import { PAUSE_MS } from '../../routine/crewTime.ts';
import { follow, markReached, type Step } from '../engine/effects.ts';
import type { RunState } from '../engine/state.ts';
import { heardOutMs } from './callTiming.ts';
import { fasterThan } from './safeFeed.ts';
import { durationMs, phrasesOf, sayPhrase, tell } from './say.ts';
import { nextDueMs } from './whenToCall.ts';

const MESSAGES = {
  saw: 'The saw does not take so much in this depth. Ease the feed.',
  crew: 'The calls and the wheel cannot keep up here. Ease the feed.',
} as const;

/** Asked once, a sawyer is given time to ease the feed, and to see what comes of it. */
const ASKED_FOR_MS = 8000;

/**
 * "Feed slower", to the sawyer, before the hand falls behind: where the feed is faster than the coming calls and turns allow, or
 * than the saw takes.
 * Only where it stands in the way of no call.
 */
export function askForSlowerFeed(state: RunState, atMs: number): Step {
  const { reckoning, easedAtMs } = state;
  if (state.phase !== 'feeding' || reckoning?.speedMmPerMs == null) return [state, []];
  if (easedAtMs !== null && atMs - easedAtMs < ASKED_FOR_MS) return [state, []];
  if ((heardOutMs(state) ?? atMs) > atMs) return [state, []];
  const whose = fasterThan(state, atMs);
  if (whose === null) return [state, []];
  const overMs = atMs + durationMs(state, phrasesOf(state).easeFeed) + PAUSE_MS;
  if ((nextDueMs(state, atMs) ?? overMs) < overMs) return [state, []];
  return follow(
    { ...state, easedAtMs: atMs },
    (now) => sayPhrase(now, atMs, phrasesOf(now).easeFeed, 'sawyer'),
    (now) =>
      tell(now, {
        code: 'too-fast',
        message: MESSAGES[whose],
        mark: markReached(now),
      }),
  );
}
