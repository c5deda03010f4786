/** The times that calls are reckoned by, from a state alone. Milliseconds. */

import { crewTime, PAUSE_MS } from '../../routine/crewTime.ts';
import { type CrewedWheel, timeBetweenS, type Way, wayToNth } from '../../saw/handwheel.ts';
import { stationAt } from '../engine/effects.ts';
import type { Reckoning, RunState } from '../engine/state.ts';
import { STANDING_MM_PER_MS } from '../place/moving.ts';
import { callTextAt, durationMs } from './say.ts';

/** Kept in hand on top of words, reaction and wheel: the sound's own way out of the machine and the timers' jitter. */
const MARGIN_MS = 20;
/**
 * How sure it must be that the wood is not there before a call is over: two standard deviations; where only scanned marks
 * tell the place, one, for the lead leaves the other.
 */
const SURE_SDS = { travel: 2, scan: 1, press: 2 } as const;
/**
 * What of the doubt the lead is lengthened by. A count goes on correcting until the call begins, and the hand's own reaction
 * varies by more than is left: a fifth of a standard deviation. Between two scans nothing corrects: then all of it.
 */
const LEAD_SDS = { travel: 0.2, scan: 2, press: 2 } as const;

/** A count whose speed is not known after so long jumps about: then a bevel is called as on the pedal. */
const LEARNING_MS = 700;

/** A place will be at the blade then, at the speed of now. */
export const arrivalMs = ({ atMs, positionMm, speedMmPerMs }: Reckoning, placeMm: number): number =>
  atMs + (placeMm - positionMm) / (speedMmPerMs ?? 1);

/** How much earlier than reckoned it may come, by the doubt in place and speed: one standard deviation. */
function sdMs({ atMs, uncertaintyMm, speedMmPerMs, speedSdMmPerMs }: Reckoning, arrivesAtMs: number): number {
  const aheadMs = Math.max(0, arrivesAtMs - atMs);
  const driftMm = speedSdMmPerMs * aheadMs;
  const sdMm = Math.sqrt(uncertaintyMm * uncertaintyMm + driftMm * driftMm);
  return sdMm / Math.max(speedMmPerMs ?? 0, STANDING_MM_PER_MS);
}
export const doubtMs = (reckoning: Reckoning, arrivesAtMs: number): number =>
  SURE_SDS[reckoning.by] * sdMs(reckoning, arrivesAtMs);

/** How much earlier a call starts for what is not certain. */
export const marginMs = (reckoning: Reckoning, arrivesAtMs: number): number =>
  MARGIN_MS + LEAD_SDS[reckoning.by] * sdMs(reckoning, arrivesAtMs);

/** Before two marks have been read the speed is no more than what is usual here. */
const KNOWN_SHARE = 0.3;
export const isSpeedKnown = ({ speedMmPerMs, speedSdMmPerMs }: Reckoning): boolean =>
  speedMmPerMs !== null && speedSdMmPerMs <= KNOWN_SHARE * speedMmPerMs;

/** By when words must be over that are for a place; from a speed that is not known nothing better can be said than its mean. */
export function latestMs(reckoning: Reckoning, placeMm: number): number {
  const arrivesAtMs = arrivalMs(reckoning, placeMm);
  return isSpeedKnown(reckoning) ? arrivesAtMs - doubtMs(reckoning, arrivesAtMs) : arrivesAtMs;
}

/** The speed that it is surely not under. */
export const surelyFasterThan = ({ by, speedMmPerMs, speedSdMmPerMs }: Reckoning): number =>
  (speedMmPerMs ?? 0) - SURE_SDS[by] * speedSdMmPerMs;

/** From the start of a call until its words are over in the slowest ear. */
export const wordsMs = (state: RunState, text: string): number => state.hearsAfterMs + durationMs(state, text);

export const reactionMs = ({ setup }: RunState): number => setup.crew.reactionS * 1000;

/** A run keeps the wheel's figures beside the crew. */
export const crewedWheel = (setup: RunState['setup']): CrewedWheel => ({ saw: setup, crew: setup.crew });

/** To turn the wheel from one figure to another, having come to the first one by a turn of this way. */
export const wheelMs = ({ setup }: RunState, fromDeg: number, toDeg: number, before: Way): number =>
  timeBetweenS(crewedWheel(setup), fromDeg, toDeg, before) * 1000;

/** The way of the turn that leads to a station's figure, as the stations follow one another from square. */
export const wayToStation = (state: RunState, index: number): Way =>
  wayToNth(index, (at) => stationAt(state, at).callDeg);

/** To turn the wheel from one station's figure to another's. */
export function turnMs(state: RunState, from: number, to: number): number {
  const [fromDeg, toDeg] = [stationAt(state, from).callDeg, stationAt(state, to).callDeg];
  return wheelMs(state, fromDeg, toDeg, wayToStation(state, from));
}

/**
 * The crew's time from the start of a station's call until its bevel stands: words in the slowest ear, reaction and wheel.
 * What the lead, the feed that is safe and "too fast" go by. `from`: the station that is turned from.
 */
export const crewMs = (state: RunState, index: number, from: number, text = callTextAt(state, index)): number =>
  crewTime(wordsMs(state, text), reactionMs(state), turnMs(state, from, index));

/** By then words for a place must begin to be over in time with all of the doubt. */
export const lastStartMs = (state: RunState, reckoning: Reckoning, placeMm: number, text: string): number =>
  latestMs(reckoning, placeMm) - wordsMs(state, text) - MARGIN_MS;

/** What a place may be noticed late by: a count tells of it with its next reading. */
export const noticedAfterMs = ({ reckoning }: RunState): number => reckoning?.travel?.everyMs ?? 0;

/** From when something else can be said after what is being said; null when nothing is. */
export const heardOutMs = ({ speaking, hearsAfterMs }: RunState): number | null =>
  speaking === null ? null : speaking.startsAtMs + speaking.durationMs + hearsAfterMs + PAUSE_MS;

/** True once a count of travel has had time to tell its speed, or where there is none. */
export const hadTimeToTell = ({ travel, atMs }: Reckoning): boolean =>
  travel === null || atMs - travel.sinceMs > LEARNING_MS;
