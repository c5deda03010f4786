import { isByDegrees } from '../call/degreeCalls.ts';
import { isStillHeard, whyNotByPress } from '../call/heard.ts';
import { repeatCall } from '../call/repeat.ts';
import { callBevel, phrasesOf, sayPhrase } from '../call/say.ts';
import { isUnderWay, refuse, type Step, stationAt } from '../engine/effects.ts';
import { type RunEvent, trueAtMs } from '../engine/events.ts';
import type { RunState } from '../engine/state.ts';
import { atStation, counted, positionAt, withoutCount } from '../place/position.ts';
import { pressedTooSoon, withEarned } from '../place/tooSoon.ts';
import { stopFeed } from './commanded.ts';
import { finish } from './finish.ts';

type Pressed = Extract<RunEvent, { kind: 'pressed' }>;

/** A foot on the pedal. While the place is lost a press tells it again, and the run is feeding: see `heard.ts` for when not. */
export function pressed(state: RunState, press: Pressed): Step {
  if (press.gesture === 'stop' && state.phase === 'stopped') return [state, []];
  if (press.gesture === 'stop' && state.phase === 'finished')
    return sayPhrase(state, press.atMs, phrasesOf(state).stopFeed, 'everyone', press.id);
  if (press.gesture === 'back' && isFinishedByAMark(state))
    return isStillHeard(state) || state.isWithoutSound
      ? takeBack(state, press)
      : refuse(state, 'not-feeding', 'nobody hears the calls now: confirm the sound on a listener, then take it back');
  if (!isUnderWay(state))
    return refuse(
      state,
      'not-feeding',
      `the run is ${state.phase}, so a press is not taken; ${state.phase === 'ready' ? 'start it' : 'resume it'} first`,
    );
  const whyNot = press.gesture === 'stop' ? null : whyNotByPress(state, press.atMs);
  if (whyNot !== null) return refuse(state, 'not-feeding', whyNot);
  switch (press.gesture) {
    case 'stop':
      return stopFeed(state, press.atMs, press.id);
    case 'again':
      // To hear the number once more is not to say that the feed goes on.
      if (state.phase === 'lost')
        return refuse(
          state,
          'not-feeding',
          'the signal is lost, so nothing is called; press at a mark or resume first',
        );
      return repeatCall(state, press.atMs, press.id);
    case 'back':
      return takeBack(state, press);
    case 'next':
      return atNextMark(state, press);
  }
}

/** A hasty press is refused, and leaves all as it was. */
function atNextMark(state: RunState, press: Pressed): Step {
  const index = pressedStation(state, trueAtMs(press));
  return pressedTooSoon(state, index, trueAtMs(press)) ?? markAtBlade(feedingAgain(state), index, press);
}

/** Counts the mark and calls the bevel of the one after it, cutting off what is being said. */
function markAtBlade(state: RunState, index: number, press: Pressed): Step {
  const lastPress = {
    reachedBefore: state.reached,
    reachedAfter: index + 1,
    before: state.reckoning,
  };
  const { state: arrived } = atStation(
    { ...withEarned(state, stationAt(state, index).positionMm, trueAtMs(press)), reached: index + 1, lastPress },
    index,
    0,
    trueAtMs(press),
    'press',
    press.atMs,
  );
  if (index + 1 === state.setup.stations.length) return finish(arrived, press.atMs, press.id);
  // There the figures come between the marks: the press puts the place right, and hears which figure holds.
  if (isByDegrees(arrived)) return repeatCall(arrived, press.atMs, press.id);
  return callBevel(arrived, press.atMs, index + 1, { cause: press.id });
}

/**
 * Which mark a press means: the next one; but where a count of travel has already taken the nearest mark past the blade,
 * the press confirms that one, for otherwise a wheel that runs ahead would make the foot count a mark twice.
 */
function pressedStation(state: RunState, atMs: number): number {
  const { reached, reckoning } = state;
  if (reckoning?.by !== 'travel' || reached === 0) return reached;
  // A mark that a foot or a scan has spoken for already needs no confirming: this press is the next one's.
  if (state.lastPress?.reachedAfter === reached || state.scannedMark === stationAt(state, reached - 1).mark)
    return reached;
  const position = positionAt(reckoning, atMs);
  const behind = position - stationAt(state, reached - 1).positionMm;
  const ahead = stationAt(state, reached).positionMm - position;
  return behind < ahead ? reached - 1 : reached;
}

function takeBack(state: RunState, press: Pressed): Step {
  if (state.reached === 0)
    return refuse(
      state,
      'nothing-to-take-back',
      'no mark has reached the blade yet, so there is no press to take back',
    );
  const reached = Math.min(reachedWithout(state), state.setup.stations.length - 1);
  return callBevel(uncounted({ ...feedingAgain(state), reached }, press.atMs), press.atMs, reached, {
    cause: press.id,
  });
}

/** A mistaken press or scan at the last mark ends the run too soon: it can be taken back like any other. */
export const isFinishedByAMark = ({ phase, reached, setup }: RunState): boolean =>
  phase === 'finished' && reached === setup.stations.length;

/** Presses alone are uncounted one by one; marks that a count of travel or a scan has taken past the blade since stay counted. */
function reachedWithout({ lastPress, reached, reckoning }: RunState): number {
  if (lastPress === null) return reckoning?.travel == null ? reached - 1 : reached;
  return reached === lastPress.reachedAfter ? lastPress.reachedBefore : reached;
}

/** The position as it was believed before the mistaken press, and what travel has counted since. */
function uncounted(state: RunState, atMs: number): RunState {
  const { reckoning, lastPress, reached } = state;
  if (lastPress === null) {
    if (reckoning?.travel != null) return state;
    const known = { ...state, reckoning: null };
    return reached === 0 ? known : atStation(known, reached - 1, 0, atMs, 'press').state;
  }
  const before = { ...state, lastPress: null, reckoning: lastPress.before };
  if (reckoning?.travel == null) return withoutCount(before);
  if (lastPress.before?.travel == null) return before;
  return { ...before, reckoning: counted(before, reckoning.travel.lastMm, atMs).reckoning };
}

/** A press while the signal is lost takes over from the source that fell silent. */
function feedingAgain(state: RunState): RunState {
  const heard = state.phase === 'lost' ? withoutCount(state) : state;
  return { ...heard, phase: 'feeding' };
}
