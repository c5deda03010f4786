/**
 * Where scanned marks alone tell the place, a mark whose code was not read is taken to have passed once that is much likelier than not; one, and
 * no more: behind the next such mark the place is lost, and so it is when nothing has been read for too long.
 */
import { placeAt } from '../../track/placeAt.ts';
import { arrivalMs, doubtMs, isSpeedKnown } from '../call/callTiming.ts';
import { withoutLateCall } from '../call/cutLateCall.ts';
import { tell } from '../call/say.ts';
import { callWhatIsDue, missed } from '../call/whenToCall.ts';
import { follow, type Step, stationAt } from '../engine/effects.ts';
import type { Reckoning, RunState } from '../engine/state.ts';
import { signalLost } from './commanded.ts';
import { finish } from './finish.ts';

/** So many marks in a row may be guessed. */
const GUESSED_MARKS = 1;
/** How far past it the place must be, in standard deviations; at the last mark there is nothing more to turn to too early. */
const LIKELY_SDS = 1;
const LIKELY_END_SDS = 0.25;
/** How long nothing may be read: three times what the next mark should take, but no less than a slow feed takes. */
const PATIENCE = 3;
const LEAST_PATIENCE_MS = 10_000;
/** While the speed is not known: from the first mark to the second. */
const UNKNOWN_PATIENCE_MS = 30_000;
/** Wood that crawls is looked at again after so long. */
const LONGEST_MS = 600_000;

/** When the next mark has most likely passed or patience is over; null where that is not to be waited for. */
export function unreadAtMs(state: RunState): number | null {
  const { reckoning, phase } = state;
  if (phase !== 'feeding' || reckoning === null || reckoning.by !== 'scan' || reckoning.speedMmPerMs === null)
    return null;
  if (state.reached >= state.setup.stations.length) return null;
  return Math.min(patienceEndsMs(state, reckoning), likelyPassedMs(state, reckoning));
}

function patienceEndsMs(state: RunState, reckoning: Reckoning): number {
  const { atMs } = reckoning;
  if (!isSpeedKnown(reckoning)) return atMs + UNKNOWN_PATIENCE_MS;
  const expectedMs = arrivalMs(reckoning, stationAt(state, state.reached).positionMm) - atMs;
  return atMs + Math.max(LEAST_PATIENCE_MS, PATIENCE * expectedMs);
}

/** When the place, less its doubt, is past the next mark: found by halving. */
function likelyPassedMs(state: RunState, reckoning: Reckoning): number {
  // From a feed that is not known no mark is guessed.
  if (!isSpeedKnown(reckoning)) return Number.POSITIVE_INFINITY;
  const markMm = stationAt(state, state.reached).positionMm;
  const sds = state.reached === state.setup.stations.length - 1 ? LIKELY_END_SDS : LIKELY_SDS;
  const isPast = (atMs: number): boolean => {
    const place = placeAt(reckoning.track, atMs);
    return place !== null && place.positionMm - sds * place.sdMm > markMm;
  };
  const arrivesMs = arrivalMs(reckoning, markMm);
  let [before, after] = [reckoning.atMs, arrivesMs + 4 * doubtMs(reckoning, arrivesMs)];
  if (!(after - before < LONGEST_MS) || !isPast(after)) return Number.POSITIVE_INFINITY;
  while (after - before > 1) {
    const middle = (before + after) / 2;
    if (isPast(middle)) after = middle;
    else before = middle;
  }
  return after;
}

/** What follows if the next mark is overdue at this moment, otherwise null. */
export function noticeUnreadMark(state: RunState, atMs: number): Step | null {
  const overdueAt = unreadAtMs(state);
  if (overdueAt === null || atMs < overdueAt || state.reckoning === null) return null;
  const isGuess = state.guessed < GUESSED_MARKS && atMs < patienceEndsMs(state, state.reckoning);
  return isGuess
    ? guessNextMark(state, atMs)
    : signalLost(state, atMs, 'travel', 'No mark has been read for too long, so the place of the stock is not known.');
}

function guessNextMark(state: RunState, atMs: number): Step {
  const index = state.reached;
  const { mark } = stationAt(state, index);
  const passed = { ...state, reached: index + 1, guessed: state.guessed + 1 };
  return follow(
    passed,
    (now) => withoutLateCall(now, atMs),
    (now) =>
      now.turningTo < index ? missed(now, index, index + 1, 'it was not read, and its call never due') : [now, []],
    (now) => (now.reached === now.setup.stations.length ? finish(now, atMs) : callWhatIsDue(now, atMs)),
    (now) =>
      tell(now, {
        code: 'mark-guessed',
        message: `Mark ${mark} was not read. By the feed it has passed the blade, and the calls go on by that guess as far as the next mark.`,
        mark,
      }),
  );
}
