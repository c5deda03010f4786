import { PAUSE_MS } from '../../routine/crewTime.ts';
import { evenDeg, evenPerDeg, looseDeg, wayOf, wheelDegPerS } from '../../saw/handwheel.ts';
import { mPerMinToMmPerMs } from '../../units.ts';
import { stationAt } from '../engine/effects.ts';
import { steepestBetween, tiltAt, tiltsFrom } from '../engine/profile.ts';
import type { RunState } from '../engine/state.ts';
import { positionAt } from '../place/position.ts';
import {
  crewedWheel,
  crewMs,
  heardOutMs,
  noticedAfterMs,
  reactionMs,
  surelyFasterThan,
  turnMs,
  wordsMs,
} from './callTiming.ts';
import { routineNow } from './routineNow.ts';
import { callTextAt } from './say.ts';

/** So many marks ahead are looked at: a feed is eased in a second or two, and what lies farther on can wait. */
const MARKS_AHEAD = 2;
/** Nearer than this a mark is as good as there: what is late by so little wood leaves nothing to see. */
const NEAR_MM = 10;
/** A hand that follows the display looks so far ahead, and so far the wheel must be able to go with the wood. */
const FOLLOWED_MS = 3000;
/** So much of an error is not what makes a feed unsafe. */
const SLACK_DEG = 0.25;
/** A tilt that was measured longer ago says nothing of now. */
export const FRESH_TILT_MS = 500;

/**
 * The fastest feed, mm/ms, that the saw takes and at which from here on every call that comes can be said, reacted to and turned to before its mark;
 * where the tilt goes with the wood, at which the wheel can. Null while not feeding, or where nothing limits it.
 */
export function safeFeed(state: RunState, positionMm: number, atMs: number): number | null {
  if (state.phase !== 'feeding') return null;
  const least = leastLimit(state, positionMm, atMs);
  return Number.isFinite(least) ? least : null;
}

/** The feed is surely faster than that. */
export const isFasterThanSafe = (state: RunState, atMs: number): boolean => fasterThan(state, atMs) !== null;

/** For whom the feed is surely too fast: the saw, or else the crew with its calls and its wheel; null where it is not. */
export function fasterThan(state: RunState, atMs: number): 'saw' | 'crew' | null {
  const { reckoning } = state;
  if (reckoning?.speedMmPerMs == null) return null;
  const safe = safeFeed(state, positionAt(reckoning, atMs), atMs);
  const surely = surelyFasterThan(reckoning);
  if (safe === null || surely <= safe) return null;
  return surely > sawLimit(state) ? 'saw' : 'crew';
}

function leastLimit(state: RunState, positionMm: number, atMs: number): number {
  return Math.min(sawLimit(state), crewLimit(state, positionMm, atMs));
}

const sawLimit = ({ setup: { sawFeedMPerMin = Number.POSITIVE_INFINITY } }: RunState): number =>
  mPerMinToMmPerMs(sawFeedMPerMin);

function crewLimit(state: RunState, positionMm: number, atMs: number): number {
  const { isTurnedInOneGo, isTurnedEvenly, isByDegrees } = routineNow(state);
  if (isTurnedInOneGo) return callLimit(state, positionMm, atMs);
  if (isTurnedEvenly) return evenLimit(state, positionMm, atMs);
  const wheel = wheelLimit(state, positionMm);
  return isByDegrees ? Math.min(wheel, wholeDegreeLimit(state, positionMm)) : wheel;
}

/** To every place that comes the wheel can turn from where it is (without a fresh reading: from where it should be) in time. */
function wheelLimit({ setup, reckoning, tilt }: RunState, positionMm: number): number {
  const speed = reckoning?.speedMmPerMs ?? mPerMinToMmPerMs(setup.crew.feedMPerMin);
  const degPerMs = wheelDegPerS(crewedWheel(setup)) / 1000;
  const isFresh = tilt !== null && reckoning !== null && reckoning.atMs - tilt.atMs < FRESH_TILT_MS;
  const hadDeg = isFresh ? tilt.deg : tiltAt(setup, positionMm);
  const farMm = Math.max(NEAR_MM, speed * FOLLOWED_MS);
  const before = wayOf(tiltAt(setup, positionMm - NEAR_MM), tiltAt(setup, positionMm));
  const hadEvenDeg = evenDeg(setup, hadDeg);
  const perDeg = evenPerDeg(setup, hadDeg);
  let least = degPerMs / (steepestBetween(setup, positionMm, positionMm + NEAR_MM) * perDeg);
  let aheadMm = 0;
  for (const tiltDeg of tiltsFrom(setup, positionMm + NEAR_MM, NEAR_MM, Math.floor(farMm / NEAR_MM))) {
    aheadMm += NEAR_MM;
    const ownDeg = Math.abs(evenDeg(setup, tiltDeg) - hadEvenDeg) - SLACK_DEG * perDeg;
    if (ownDeg <= 0) continue;
    const toTurnDeg = wayOf(hadDeg, tiltDeg) === before ? ownDeg : ownDeg + looseDeg(setup);
    least = Math.min(least, (aheadMm * degPerMs) / toTurnDeg);
  }
  return least;
}

/** To the next mark there is what is left of the way; to one behind it the whole interval, from where its call may begin. */
function callLimit(state: RunState, positionMm: number, atMs: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let index = state.reached; index <= lastLookedAt(state); index += 1)
    least = Math.min(least, limitFrom(state, index, index - 1, positionMm, atMs));
  return least;
}

/** Each turn has its whole interval, each call the time between two marks, and both together that from the mark before. */
function evenLimit(state: RunState, positionMm: number, atMs: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (let index = Math.max(1, state.reached); index <= lastLookedAt(state); index += 1) {
    const wayMm = stationAt(state, index).positionMm - stationAt(state, index - 1).positionMm;
    const words = wordsMs(state, callTextAt(state, index)) + PAUSE_MS;
    if (index > state.reached) least = Math.min(least, wayMm / Math.max(turnMs(state, index - 1, index), words));
    // The turn itself goes on from mark to mark: of a call that is given there is only to be heard and reacted to.
    if (index === state.turningTo && state.speaking !== null)
      least = Math.min(least, hereMm(state, index, positionMm) / Math.max(0, stillToHearMs(state, atMs)));
    if (index > state.turningTo) least = Math.min(least, limitFrom(state, index, index - 2, positionMm, atMs));
  }
  return least;
}

const lastLookedAt = ({ reached, setup }: RunState): number =>
  Math.min(reached + MARKS_AHEAD, setup.stations.length - 1);

/** The feed at which the crew's time for a station, as far as it is not over yet, is there; its call may begin at station `begins`. */
function limitFrom(state: RunState, index: number, begins: number, positionMm: number, atMs: number): number {
  const { reached, turningTo } = state;
  if (index < turningTo) return Number.POSITIVE_INFINITY;
  const toMm = stationAt(state, index).positionMm;
  const wayLeftMm = hereMm(state, index, positionMm);
  const from = Math.max(0, index - 1);
  if (index === turningTo) return wayLeftMm / Math.max(0, stillToHearMs(state, atMs) + turnMs(state, from, index));
  const crew = crewMs(state, index, from);
  // Not before what is being said has been heard.
  const fromHere = wayLeftMm / (Math.max(0, (heardOutMs(state) ?? atMs) - atMs) + crew);
  if (begins < reached) return fromHere;
  const wayMm = Math.max(NEAR_MM, toMm - stationAt(state, begins).positionMm);
  return Math.min(fromHere, wayMm / (noticedAfterMs(state) + crew));
}

const hereMm = (state: RunState, index: number, positionMm: number): number =>
  Math.max(NEAR_MM, stationAt(state, index).positionMm - positionMm);

/** Of the call given out last: what of its words and the reaction is still to come; below 0 once both are over. */
function stillToHearMs(state: RunState, atMs: number): number {
  const { speaking, hearsAfterMs } = state;
  const heardAtMs = speaking === null ? atMs : speaking.startsAtMs + speaking.durationMs + hearsAfterMs;
  return heardAtMs + reactionMs(state) - atMs;
}

/** Between two whole degrees there is time for the words of one. */
function wholeDegreeLimit(state: RunState, positionMm: number): number {
  const steps = state.setup.steps ?? [];
  let beforeMm: number | null = null;
  let least = Number.POSITIVE_INFINITY;
  let looked = 0;
  for (const step of steps) {
    if (step.positionMm <= positionMm || !step.isWhole) continue;
    if (looked > MARKS_AHEAD) break;
    if (beforeMm !== null)
      least = Math.min(least, (step.positionMm - beforeMm) / (wordsMs(state, step.text) + PAUSE_MS));
    beforeMm = step.positionMm;
    looked += 1;
  }
  return least;
}
