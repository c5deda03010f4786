/** When a notice is over: each goes once what it says is mended, and no sooner. The record keeps it. */

import { isFasterThanSafe } from '../call/safeFeed.ts';
import type { Step } from '../engine/effects.ts';
import type { RunEffect, RunEvent, RunNoticeCode } from '../engine/events.ts';
import type { RunState } from '../engine/state.ts';

interface Turn {
  readonly before: RunState;
  readonly now: RunState;
  readonly event: RunEvent;
  readonly effects: readonly RunEffect[];
}

/** A person or a reader has spoken for a mark since. */
const isMarkTold = ({ event }: Turn): boolean =>
  event.kind === 'scanned' || (event.kind === 'pressed' && (event.gesture === 'next' || event.gesture === 'back'));

const isMarkPassed = (turn: Turn): boolean => isMarkTold(turn) || turn.now.reached > turn.before.reached;

const isFeeding = ({ now }: Turn): boolean => now.phase === 'feeding';

/** The wood stands, or a bevel was called in time and the feed is no faster than is safe. */
function isEased({ now, event, effects }: Turn): boolean {
  if (now.phase !== 'feeding') return true;
  const isCalled = effects.some((effect) => effect.kind === 'say' && effect.call.deg !== undefined);
  return isCalled && !isFasterThanSafe(now, event.atMs);
}

const ENDS: Readonly<Record<RunNoticeCode, (turn: Turn) => boolean>> = {
  'mark-skipped': isMarkTold,
  'mark-doubled': isMarkPassed,
  'mark-behind': isMarkTold,
  'mark-doubtful': isMarkTold,
  'mark-guessed': isMarkTold,
  'count-restarted': isMarkTold,
  'too-fast': isEased,
  'signal-lost': isFeeding,
  'pulled-back': isFeeding,
  /** Where the count says that it stands again, `moved.ts` takes it away. */
  'moved-while-stopped': isFeeding,
  restarted: isFeeding,
  damaged: ({ event }) => event.kind === 'placed',
  'not-kept': () => false,
};

/** A person's "resume" answers all that was told before it, and so does the end of the run. */
function isMended(code: RunNoticeCode, turn: Turn): boolean {
  if (code === 'not-kept') return false;
  const isOver = turn.now.phase === 'finished' && turn.before.phase !== 'finished';
  return isOver || turn.event.kind === 'resumed' || ENDS[code](turn);
}

/** What an event has made of the run, without the notice that it has mended. */
export function withoutMended(before: RunState, event: RunEvent, [now, effects]: Step): Step {
  const { notice } = now;
  if (notice === null || notice !== before.notice || now === before) return [now, effects];
  return isMended(notice.code, { before, now, event, effects }) ? [{ ...now, notice: null }, effects] : [now, effects];
}
