import { askForSlowerFeed } from '../call/askForSlowerFeed.ts';
import { cutLateCall } from '../call/cutLateCall.ts';
import { phrasesOf, sayPhrase, tell } from '../call/say.ts';
import { callWhatIsDue } from '../call/whenToCall.ts';
import { changed } from '../engine/changed.ts';
import { follow, isUnderWay, markReached, refuse, type Step } from '../engine/effects.ts';
import { type RunEvent, trueAtMs } from '../engine/events.ts';
import type { RunState } from '../engine/state.ts';
import { counted, standing } from '../place/position.ts';
import { finish } from './finish.ts';
import { passMarks } from './marksPassed.ts';

/** Backward by more than the noise of any count: the stock is being pulled back in the kerf. */
const PULLED_BACK_MM = 8;
/** How far the stock may run on after "stop feed" before that is told. */
const RUN_ON_MM = 25;
/** It stands where it has gone no farther than this for so long. */
const STANDS_MM = 1;
const STANDS_MS = 1000;

/** A source that counts travel has spoken. */
export function moved(state: RunState, event: Extract<RunEvent, { kind: 'moved' }>): Step {
  if (state.phase === 'ready')
    return refuse(state, 'not-feeding', 'the run has not been started; travel counts from the start');
  const { reckoning, verdict } = counted(state, event.mm, trueAtMs(event), event.atMs);
  const farthestMm = state.reckoning?.farthestMm ?? reckoning.positionMm;
  if (farthestMm - reckoning.positionMm > PULLED_BACK_MM)
    return pulledBack({ ...state, reckoning }, event.atMs, event.id);
  if (!isUnderWay(state)) return movedWhileStopped({ ...state, reckoning: { ...reckoning, farthestMm } }, event.atMs);
  if (state.phase === 'lost') return [{ ...state, reckoning }, []];
  return follow(
    changed(state, { reckoning }),
    (now) => (verdict === 'restarted' ? tellCountRestarted(now) : [now, []]),
    (now) => passMarks(now, event.atMs),
    (now) =>
      now.reached === now.setup.stations.length ? finish(now, event.atMs, event.id) : callWhatIsDue(now, event.atMs),
    (now) => cutLateCall(now, event.atMs) ?? [now, []],
    (now) => askForSlowerFeed(now, event.atMs),
  );
}

function tellCountRestarted(state: RunState): Step {
  return tell(state, {
    code: 'count-restarted',
    message:
      'The travel count began anew. The position is carried on as a guess: press or scan at the next mark to make it sure.',
    mark: markReached(state),
  });
}

/** Pulling back in a twisted kerf is an alarm, not a routine. */
function pulledBack(state: RunState, atMs: number, cause?: string): Step {
  const held = standing({ ...state, phase: 'stopped' }, atMs);
  // Wood that is pulled on does not begin the words anew.
  const { speaking } = state;
  if (speaking?.text === phrasesOf(state).pulledBack && atMs < speaking.startsAtMs + speaking.durationMs)
    return [held, []];
  return follow(
    held,
    (now) => sayPhrase(now, atMs, phrasesOf(now).pulledBack, 'everyone', cause),
    (now) =>
      tell(now, {
        code: 'pulled-back',
        message:
          'The stock moved backward. Do not pull back: stop the feed, hold the tilt, switch off and wait until the blade stands.',
        mark: markReached(now),
      }),
  );
}

function movedWhileStopped(state: RunState, atMs: number): Step {
  const { reckoning, ranOn } = state;
  if (reckoning === null) return [state, []];
  const { positionMm, farthestMm } = reckoning;
  if (ranOn !== null) return [stillMoving(state, ranOn, positionMm, atMs), []];
  if (positionMm - farthestMm < RUN_ON_MM) return [state, []];
  return tell(
    { ...state, ranOn: { positionMm, atMs } },
    {
      code: 'moved-while-stopped',
      message: 'The stock is moving while the run is stopped, and nothing is called. Stop the feed, or resume.',
      mark: markReached(state),
    },
  );
}

/** The notice goes once the wood stands; if it moves on from there, that is told anew. */
function stillMoving(
  state: RunState,
  ranOn: NonNullable<RunState['ranOn']>,
  positionMm: number,
  atMs: number,
): RunState {
  if (Math.abs(positionMm - ranOn.positionMm) > STANDS_MM) return { ...state, ranOn: { positionMm, atMs } };
  if (atMs - ranOn.atMs < STANDS_MS || state.reckoning === null) return state;
  const notice = state.notice?.code === 'moved-while-stopped' ? null : state.notice;
  return { ...state, ranOn: null, notice, reckoning: { ...state.reckoning, farthestMm: positionMm } };
}
