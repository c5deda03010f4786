import { isByDegrees } from '../call/degreeCalls.ts';
import { isStillHeard, relyingOnNow } from '../call/heard.ts';
import { callForPlace } from '../call/repeat.ts';
import { callBevel, cutOff, phrasesOf, sayPhrase, tell } from '../call/say.ts';
import { missed } from '../call/whenToCall.ts';
import { follow, isUnderWay, markReached, refuse, type Step } from '../engine/effects.ts';
import type { Lifeline, RunEvent } from '../engine/events.ts';
import type { RunState } from '../engine/state.ts';
import { goingOn, standing, withoutPlace } from '../place/position.ts';
import { placeUnknown } from './damaged.ts';
import { finish } from './finish.ts';
import { passMarks } from './marksPassed.ts';

/** The first bevel is called at the start, to be set before the wood touches the blade. */
export function started(state: RunState, { atMs, withoutSound }: Extract<RunEvent, { kind: 'started' }>): Step {
  if (state.phase !== 'ready') return refuse(state, 'already-started', `the run is ${state.phase} already`);
  return callBevel({ ...relyingOnNow(state, withoutSound), phase: 'feeding' }, atMs, 0);
}

/** "Stop feed", which always means "and hold the tilt": wins over everything and is said to everyone at once. */
export function stopFeed(state: RunState, atMs: number, cause?: string): Step {
  return sayPhrase(standing({ ...state, phase: 'stopped' }, atMs), atMs, phrasesOf(state).stopFeed, 'everyone', cause);
}

/** Stopped from a page, or found standing after a restart (then nobody is there yet to be told aloud). */
export function stopped(state: RunState, atMs: number, by: 'page' | 'restart'): Step {
  if (state.phase === 'stopped') return [state, []];
  if (state.phase === 'finished') return sayPhrase(state, atMs, phrasesOf(state).stopFeed, 'everyone');
  if (!isUnderWay(state)) return refuse(state, 'not-feeding', `the run is ${state.phase}, so there is no feed to stop`);
  if (by === 'page') return stopFeed(state, atMs);
  return follow(
    standing({ ...state, phase: 'stopped' }, atMs),
    (now) => cutOff(now, atMs),
    (now) =>
      tell(now, {
        code: 'restarted',
        message: 'The server was started again. The run stands stopped: see which mark is at the blade, then resume.',
        mark: markReached(now),
      }),
  );
}

/** A person says that the feed goes on: the bevel being turned to is said again. Needs no source. */
export function resumed(state: RunState, { atMs, withoutSound = false }: Extract<RunEvent, { kind: 'resumed' }>): Step {
  if (state.phase !== 'stopped' && state.phase !== 'lost')
    return refuse(state, 'not-stopped', `the run is ${state.phase}; only a stopped or lost run can be resumed`);
  if (!state.isPlaceKnown) return placeUnknown(state);
  if (!withoutSound && !isStillHeard(state))
    return refuse(
      state,
      'nobody-hears',
      `nobody hears the ${state.hears === 'nobody' ? 'calls' : 'bevels'} now: confirm the sound on a listener, or resume without sound`,
    );
  const on = goingOn(state.phase === 'lost' ? withoutPlace(state) : state, atMs);
  return follow(
    { ...relyingOnNow(on, withoutSound), phase: 'feeding', ranOn: null },
    // A count of travel knows which marks the stock ran past while it came to a stand.
    (now) => (now.reckoning?.travel == null ? [now, []] : passMarks(now, atMs)),
    (now) => (now.reached === now.setup.stations.length ? finish(now, atMs) : callForPlace(now, atMs)),
  );
}

export function ended(state: RunState, atMs: number): Step {
  return follow(
    state,
    (now) => cutOff(now, atMs),
    (now) =>
      isByDegrees(now)
        ? [now, []]
        : missed(now, now.turningTo + 1, now.setup.stations.length, 'the run was ended before its call'),
    (now) => [{ ...now, phase: 'finished' }, []],
  );
}

/** What the program relies on has fallen silent. Silence is never "carry on". */
export function signalLost(state: RunState, atMs: number, lifeline: Lifeline, detail: string): Step {
  if (state.phase !== 'feeding') return [state, []];
  return follow(
    { ...state, phase: 'lost', lost: { by: lifeline, atMs } },
    (now) => sayPhrase(now, atMs, phrasesOf(now).signalLost, 'everyone'),
    (now) =>
      tell(now, {
        code: 'signal-lost',
        message: `${detail} Stop feed. Hold the tilt. Switch off and wait until the blade stands. Never back out of a running blade.`,
        mark: markReached(now),
      }),
  );
}
