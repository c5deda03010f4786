/**
 * When the next bevel is called while scanned marks or a count of travel tell where the stock is: so that the words are over,
 * the listener has reacted and the wheel can have arrived when the mark is at the blade; never before the mark in front of
 * it has reached the blade, so that the hand does not run ahead of the wood.
 */

import { routineNamed } from '../../routine/routines.ts';
import { follow, type Step, stationAt } from '../engine/effects.ts';
import type { Reckoning, RunState } from '../engine/state.ts';
import { isMoving } from '../place/moving.ts';
import { believed } from '../place/position.ts';
import {
  arrivalMs,
  crewMs,
  doubtMs,
  hadTimeToTell,
  heardOutMs,
  isSpeedKnown,
  lastStartMs,
  latestMs,
  marginMs,
  reactionMs,
  wordsMs,
} from './callTiming.ts';
import { callStep, isByDegrees, stepDue } from './degreeCalls.ts';
import { routineNow } from './routineNow.ts';
import { callBevel, callTextAt, orderEndsAtMs, phrasesOf, sayPhrase, tell, textsAt } from './say.ts';

/** A wheel speaks within this time of the wood's moving. */
const COUNT_BEGINS_MS = 500;

interface Due {
  readonly index: number;
  /** When the call should start. */
  readonly atMs: number;
  /** When the mark will be at the blade; null where the speed is not known. */
  readonly arrivesAtMs: number | null;
}

/** When the next call should start as things stand at `atMs`; null while there is nothing to time it by. */
export function nextDueMs(state: RunState, atMs: number): number | null {
  if (!isTimed(state)) return null;
  const due = isByDegrees(state) ? stepDue(state, atMs) : markDue(state);
  return due === null ? null : Math.max(due.atMs, orderEndsAtMs(state));
}

/** On the pedal alone a call is the press's own. */
const isTimed = ({ phase, reckoning }: RunState): boolean =>
  phase === 'feeding' && reckoning !== null && reckoning.by !== 'press';

function markDue(state: RunState): Due | null {
  const { reckoning, reached, setup } = state;
  if (reckoning === null) return null;
  const index = Math.max(state.turningTo + 1, reached);
  if (index > reached + aheadOfMark(state) || index >= setup.stations.length) return null;
  if (!tellsTime(reckoning))
    return index === reached ? { index, atMs: reckoning.atMs + waitForCountMs(state), arrivesAtMs: null } : null;
  // Even turning begins at this very mark, and cannot wait until the speed has been told.
  const timed = isTurnedEvenly(state) ? believed(reckoning) : reckoning;
  if (!isMoving(timed)) return null;
  const arrivesAtMs = arrivalMs(timed, stationAt(state, index).positionMm);
  const wanted = wantedMs(state, timed, index, arrivesAtMs);
  const heardOut = heardOutMs(state) ?? wanted;
  const isInTime = heardOut + neededMs(state, index) <= arrivesAtMs;
  return { index, atMs: isInTime ? Math.max(wanted, heardOut) : wanted, arrivesAtMs };
}

/** A count that jumps about, or marks that come too seldom, tell no speed: then a bevel is called at its mark, as on the pedal. */
const tellsTime = (reckoning: Reckoning): boolean =>
  reckoning.by === 'scan' ? isSpeedKnown(reckoning) : reckoning.speedMmPerMs !== null || !hadTimeToTell(reckoning);

/** Where the routine is one for a count of travel, and the first mark is read, the count is about to begin. */
const waitForCountMs = ({ setup, reckoning, reached }: RunState): number =>
  routineNamed(setup.routine).needsTravel && reckoning?.by === 'scan' && reached === 1 ? COUNT_BEGINS_MS : 0;

const isTurnedEvenly = (state: RunState): boolean => routineNow(state).isTurnedEvenly;

/** Even turning hears the next bevel before the mark in front of it, so as to begin there. */
const aheadOfMark = (state: RunState): 0 | 1 => (isTurnedEvenly(state) ? 1 : 0);

/** When the call should start: to be there with the mark, or, turning evenly, to begin at the mark before it. */
function wantedMs(state: RunState, reckoning: Reckoning, index: number, arrivesAtMs: number): number {
  if (isTurnedEvenly(state) && index > 0) {
    const beginsAtMs = arrivalMs(reckoning, stationAt(state, index - 1).positionMm);
    return beginsAtMs - wordsMs(state, callTextAt(state, index)) - reactionMs(state);
  }
  const inTimeMs = arrivesAtMs - neededMs(state, index) - marginMs(reckoning, arrivesAtMs);
  // Where nothing is turned and the place is doubtful, reaction alone leaves too little.
  const { positionMm } = stationAt(state, index);
  return Math.min(inTimeMs, lastStartMs(state, reckoning, positionMm, callTextAt(state, index)));
}

/** For the turn from the bevel last called. */
const neededMs = (state: RunState, index: number, text?: string): number =>
  crewMs(state, index, Math.max(state.turningTo, 0), text);

/** Says the call that is due. One that can no longer be over in time is never spoken: the next that can be takes its place. */
export function callWhatIsDue(state: RunState, atMs: number): Step {
  if (!isTimed(state) || atMs < orderEndsAtMs(state)) return [state, []];
  if (isByDegrees(state)) return callStepDue(state, atMs);
  const due = markDue(state);
  if (due === null || atMs < due.atMs) return [state, []];
  if (due.arrivesAtMs === null) return callBevel(state, atMs, due.index);
  const { index, text } = firstInTime(state, due.index, atMs);
  if (index === due.index) {
    const arrivedMs = atMs + neededMs(state, index, text);
    const isTight = state.reckoning !== null && arrivedMs > due.arrivesAtMs + doubtMs(state.reckoning, due.arrivesAtMs);
    return follow(
      state,
      (now) => callBevel(now, atMs, index, { text }),
      (now) => (isTight ? tellTooFast(now, index) : [now, []]),
    );
  }
  return follow(
    state,
    (now) => missed(now, due.index, index, 'its call could not be over before it reached the blade'),
    (now) =>
      index < now.setup.stations.length
        ? callBevel(now, atMs, index, { text })
        : askForSlowerFeed({ ...now, turningTo: index - 1 }, atMs),
    // Of a feed that is only believed nobody is blamed.
    (now) => (state.reckoning?.speedMmPerMs == null ? [now, []] : tellTooFast(now, due.index)),
  );
}

function callStepDue(state: RunState, atMs: number): Step {
  const due = stepDue(state, atMs);
  if (due === null || atMs < due.atMs) return [state, []];
  return follow(
    state,
    (now) => callStep(now, atMs, due.index),
    (now) => (due.isTooFast ? tellTooFast(now, Math.min(now.reached, now.setup.stations.length - 1)) : [now, []]),
  );
}

/** No call at all can be in time any more. */
function askForSlowerFeed(state: RunState, atMs: number): Step {
  return sayPhrase({ ...state, easedAtMs: atMs }, atMs, phrasesOf(state).easeFeed, 'everyone');
}

/** The first station whose words, all of them or fewer, are over before its mark can be there. */
export function firstInTime(
  state: RunState,
  from: number,
  atMs: number,
): { readonly index: number; readonly text: string } {
  const { setup } = state;
  const reckoning = state.reckoning === null ? null : believed(state.reckoning);
  for (let index = from; reckoning !== null && index < setup.stations.length; index += 1) {
    const { positionMm } = stationAt(state, index);
    const byMs = latestMs(reckoning, positionMm);
    const arrivesAtMs = arrivalMs(reckoning, positionMm);
    const texts = textsAt(state, index);
    // As many words as leave the hand its time; the fewest where none do.
    const fitting = texts.find((text) => atMs + neededMs(state, index, text) <= arrivesAtMs);
    const text = fitting ?? texts.at(-1) ?? texts[0];
    if (atMs + wordsMs(state, text) <= byMs) return { index, text };
  }
  return { index: setup.stations.length, text: '' };
}

/** Records stations `from` up to but not including `to` as never called. */
export function missed(state: RunState, from: number, to: number, reason: string): Step {
  const marks = state.setup.stations.slice(from, to);
  return [state, marks.map(({ mark }) => ({ kind: 'missed', mark, reason }) as const)];
}

/** Who follows the display is held by the wheel alone (see `askForSlowerFeed.ts`): a call that only confirms may be left out. */
const isFollowing = (state: RunState): boolean => routineNow(state).isFollowed;

export function tellTooFast(state: RunState, index: number): Step {
  if (isFollowing(state)) return [state, []];
  const { mark } = stationAt(state, index);
  return tell(state, {
    code: 'too-fast',
    message: `Mark ${mark} comes too soon for its call and the wheel. Feed more slowly.`,
    mark,
  });
}
