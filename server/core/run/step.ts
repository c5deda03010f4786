import { cutLateCall } from './call/cutLateCall.ts';
import { heardBy } from './call/heard.ts';
import { callWhatIsDue } from './call/whenToCall.ts';
import { changed } from './engine/changed.ts';
import { refuse, type Step } from './engine/effects.ts';
import { type RunEvent, trueAtMs } from './engine/events.ts';
import type { RunState } from './engine/state.ts';
import { ended, resumed, signalLost, started, stopped } from './on/commanded.ts';
import { damaged, placed } from './on/damaged.ts';
import { saidAgain } from './on/heardAgain.ts';
import { moved } from './on/moved.ts';
import { withoutMended } from './on/noticesOver.ts';
import { isFinishedByAMark, pressed } from './on/pressed.ts';
import { scanned } from './on/scanned.ts';
import { noticeSilence } from './on/sourceSilent.ts';
import { noticeUnreadMark } from './on/unreadMark.ts';
import { withWake } from './wake.ts';

/**
 * The run engine: what an event makes of a run, and what it asks for. Pure: the only time it knows is the event's own.
 * A refused event leaves the very same state and gives one `refuse` effect. A state says in `wakeAtMs` when it wants a
 * `woken` event; waking it earlier or more often changes nothing.
 */
export function step(state: RunState, event: RunEvent): Step {
  if (state.phase === 'finished' && !isHeardAfterTheEnd(state, event))
    return refuse(state, 'finished', 'this run is finished; make a new one to go again');
  const [next, effects] = withoutMended(state, event, apply(state, event));
  // Time alone makes the next moment to be woken at another one.
  return next === state && event.kind !== 'woken' ? [state, effects] : [withWake(next, event.atMs), effects];
}

/** Behind the last mark there is still wood to saw: a person's stop is said then too, and a mistaken last mark taken back. */
function isHeardAfterTheEnd(state: RunState, event: RunEvent): boolean {
  const isStop = (event.kind === 'pressed' && event.gesture === 'stop') || event.kind === 'stopped';
  const isBack = event.kind === 'pressed' && event.gesture === 'back' && isFinishedByAMark(state);
  return isStop || isBack || IS_HEARD_AFTER_THE_END.has(event.kind);
}

const IS_HEARD_AFTER_THE_END: ReadonlySet<RunEvent['kind']> = new Set(['woken', 'tilted', 'heard-after', 'heard-by']);

function apply(state: RunState, event: RunEvent): Step {
  switch (event.kind) {
    case 'started':
      return started(state, event);
    case 'pressed':
      return pressed(state, event);
    case 'scanned':
      return scanned(state, event);
    case 'moved':
      return moved(state, event);
    case 'tilted':
      return [changed(state, { tilt: { deg: event.deg, atMs: trueAtMs(event) } }), []];
    case 'heard-after':
      return [{ ...state, hearsAfterMs: event.delayMs }, []];
    case 'unheard':
      return saidAgain(state, event.atMs);
    case 'heard-by':
      return [heardBy(state, event.hears), []];
    case 'stopped':
      return stopped(state, event.atMs, event.by);
    case 'resumed':
      return resumed(state, event);
    case 'ended':
      return ended(state, event.atMs);
    case 'damaged':
      return damaged(state, event);
    case 'placed':
      return placed(state, event);
    case 'signal-lost':
      return signalLost(state, event.atMs, event.lifeline, event.detail);
    case 'woken':
      return woken(state, event.atMs);
  }
}

function woken(state: RunState, atMs: number): Step {
  return (
    noticeSilence(state, atMs) ??
    noticeUnreadMark(state, atMs) ??
    cutLateCall(state, atMs) ??
    callWhatIsDue(state, atMs)
  );
}
