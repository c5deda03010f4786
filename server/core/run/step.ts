import { changed } from './changed.ts';
import { ended, resumed, signalLost, started, stopped } from './commanded.ts';
import { damaged, placed } from './damaged.ts';
import { type RunEvent, trueAtMs } from './events.ts';
import { heardBy } from './heard.ts';
import { callWhatIsDue } from './lead.ts';
import { withoutMended } from './mended.ts';
import { moved } from './moved.ts';
import { noticeOverdue } from './overdue.ts';
import { isFinishedByAMark, pressed } from './pressed.ts';
import { scanned } from './scanned.ts';
import { noticeSilence } from './silence.ts';
import type { RunState } from './state.ts';
import { tearOff } from './tornOff.ts';
import { refuse, type Step } from './turn.ts';
import { saidAgain } from './unheard.ts';
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
  return noticeSilence(state, atMs) ?? noticeOverdue(state, atMs) ?? tearOff(state, atMs) ?? callWhatIsDue(state, atMs);
}
