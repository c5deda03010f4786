/**
 * When the next bevel is called while scanned marks or a count of travel tell where the stock is: so that the words are over,
 * the listener has reacted and the wheel can have arrived when the mark is at the blade; never before the mark in front of
 * it has reached the blade, so that the hand does not run ahead of the wood.
 */
import { phrases } from '../words/phrases.ts';
import { callBevel, callTextAt, durationMs, sayPhrase, tell } from './say.ts';
import type { Reckoning, RunState } from './state.ts';
import { follow, type Step, stationAt } from './turn.ts';

/** Kept in hand on top of words, reaction and wheel: the sound's own way to the ear and the timers' jitter. */
const MARGIN_MS = 150;
/** How sure it must be that the mark is not there before its call is over: two standard deviations. */
const SURE_SDS = 2;
/** Slower than this (0.12 m/min) the stock is standing. */
const STANDING_MM_PER_MS = 0.002;
/** A count whose speed is not known after so long jumps about: then the bevel is called as on the pedal. */
const LEARNING_MS = 700;
/** Between two things said. */
const PAUSE_MS = 60;

interface Due {
  readonly index: number;
  /** When the call should start. */
  readonly atMs: number;
  /** When the mark will be at the blade; null where the speed is not known. */
  readonly arrivesAtMs: number | null;
}

/** The next call and its time, null while there is nothing to time it by. Depends on the state alone, not on when it is asked. */
export function nextDue(state: RunState): Due | null {
  const { reckoning, reached, setup } = state;
  if (state.phase !== 'feeding' || reckoning === null || reckoning.by === 'press') return null;
  const index = Math.max(state.turningTo + 1, reached);
  if (index > reached + aheadOfMark(state) || index >= setup.stations.length) return null;
  if (reckoning.speedMmPerMs === null) {
    const isTold = reckoning.travel === null || reckoning.atMs - reckoning.travel.sinceMs > LEARNING_MS;
    return isTold && index === reached ? { index, atMs: reckoning.atMs, arrivesAtMs: null } : null;
  }
  if (reckoning.speedMmPerMs < STANDING_MM_PER_MS) return null;
  const arrivesAtMs = arrivalMs(state, reckoning, index);
  const wanted = wantedMs(state, reckoning, index, arrivesAtMs);
  const heardOutMs =
    state.speaking === null ? wanted : state.speaking.startsAtMs + state.speaking.durationMs + PAUSE_MS;
  const isInTime = heardOutMs + neededMs(state, index) <= arrivesAtMs;
  return { index, atMs: isInTime ? Math.max(wanted, heardOutMs) : wanted, arrivesAtMs };
}

/** Even turning hears the next bevel before the mark in front of it, so as to begin there. */
const aheadOfMark = ({ setup, reckoning }: RunState): 0 | 1 =>
  setup.routine === 'even turning' && reckoning?.by === 'travel' ? 1 : 0;

/** When the call should start: to be there with the mark, or, turning evenly, to begin at the mark before it. */
function wantedMs(state: RunState, reckoning: Reckoning, index: number, arrivesAtMs: number): number {
  if (state.setup.routine === 'even turning' && index > 0) {
    const beginsAtMs = arrivalMs(state, reckoning, index - 1);
    return beginsAtMs - durationMs(state, callTextAt(state, index)) - state.setup.crew.reactionS * 1000;
  }
  return arrivesAtMs - neededMs(state, index) - MARGIN_MS - doubtMs(reckoning, arrivesAtMs);
}

function arrivalMs(state: RunState, reckoning: Reckoning, index: number): number {
  return reckoning.atMs + (stationAt(state, index).positionMm - reckoning.positionMm) / (reckoning.speedMmPerMs ?? 1);
}

/** How much earlier than reckoned the mark may come, by the doubt in place and speed. */
function doubtMs({ atMs, uncertaintyMm, speedMmPerMs, speedSdMmPerMs }: Reckoning, arrivesAtMs: number): number {
  const aheadMs = Math.max(0, arrivesAtMs - atMs);
  return (
    (SURE_SDS * Math.hypot(uncertaintyMm, speedSdMmPerMs * aheadMs)) / Math.max(speedMmPerMs ?? 0, STANDING_MM_PER_MS)
  );
}

/** Words, reaction and wheel for the turn from the bevel last called. */
function neededMs(state: RunState, index: number): number {
  return durationMs(state, callTextAt(state, index)) + state.setup.crew.reactionS * 1000 + wheelMs(state, index);
}

function wheelMs(state: RunState, index: number): number {
  const { setup, turningTo } = state;
  const from = stationAt(state, Math.max(turningTo, 0)).callDeg;
  const turns = Math.abs(stationAt(state, index).callDeg - from) / setup.degreesPerTurn;
  return (turns / setup.crew.turnsPerS) * 1000;
}

/** Says the call that is due. One that can no longer be over in time is never spoken: the next that can be takes its place. */
export function callWhatIsDue(state: RunState, atMs: number): Step {
  const due = nextDue(state);
  if (due === null || atMs < due.atMs) return [state, []];
  if (due.arrivesAtMs === null) return callBevel(state, atMs, due.index);
  const index = firstInTime(state, due.index, atMs);
  if (index === due.index) {
    const isTight = atMs + neededMs(state, index) > due.arrivesAtMs;
    return follow(
      state,
      (now) => callBevel(now, atMs, index),
      (now) => (isTight ? tellTooFast(now, index) : [now, []]),
    );
  }
  return follow(
    state,
    (now) => missed(now, due.index, index, 'its call could not be over before it reached the blade'),
    (now) => (index < now.setup.stations.length ? callBevel(now, atMs, index) : askForSlowerFeed(now, atMs, index - 1)),
    (now) => tellTooFast(now, due.index),
  );
}

/** No call at all can be in time any more. */
function askForSlowerFeed(state: RunState, atMs: number, passedOver: number): Step {
  return sayPhrase({ ...state, turningTo: passedOver }, atMs, phrases.easeFeed, 'everyone');
}

function firstInTime(state: RunState, from: number, atMs: number): number {
  const { reckoning, setup } = state;
  let index = from;
  while (
    reckoning !== null &&
    index < setup.stations.length &&
    atMs + durationMs(state, callTextAt(state, index)) > arrivalMs(state, reckoning, index)
  )
    index += 1;
  return index;
}

/** Records stations `from` up to but not including `to` as never called. */
export function missed(state: RunState, from: number, to: number, reason: string): Step {
  const marks = state.setup.stations.slice(from, to);
  return [state, marks.map(({ mark }) => ({ kind: 'missed', mark, reason }) as const)];
}

export function tellTooFast(state: RunState, index: number): Step {
  const { mark } = stationAt(state, index);
  return tell(state, {
    code: 'too-fast',
    message: `Mark ${mark} comes too soon for its call and the wheel. Feed more slowly.`,
    mark,
  });
}
