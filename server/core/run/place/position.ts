/** Where the stock is, as the engine uses it: the track (see ../track) with what the engine must know beside it. */

import { rowAt } from '../../rowAt.ts';
import { assimilateInOrder, forgetCount } from '../../track/outOfOrder.ts';
import { placeAt, positionAt as placeMmAt } from '../../track/placeAt.ts';
import { type Evidence, type EvidenceVerdict, startTrack, type Track } from '../../track/track.ts';
import { mPerMinToMmPerMs } from '../../units.ts';
import { stationAt } from '../engine/effects.ts';
import type { Reckoning, RunState, TravelCount } from '../engine/state.ts';

/** A count is carried on no longer than this without a new reading. */
const CARRY_ON_MS = 500;

/** A counted speed is known once its standard deviation is under a tenth of it, or of a very slow feed (1.2 m/min). */
const KNOWN_SHARE = 0.1;
const SLOW_MM_PER_MS = 0.02;

/** Position at a moment after the last evidence; marks alone are carried on without limit, a count only briefly. */
export function positionAt(reckoning: Reckoning, atMs: number): number {
  if (reckoning.speedMmPerMs === null) return reckoning.positionMm;
  return placeMmAt(reckoning.track, carriedTo(reckoning, atMs)) ?? reckoning.positionMm;
}

/** While a count has not told its speed yet, the feed is taken to be what is usual, or what it was before it stood. */
export function believed(reckoning: Reckoning): Reckoning {
  const { speedMmPerMs, track } = reckoning;
  if (speedMmPerMs !== null || track.now === null || track.now.isStanding) return reckoning;
  return { ...reckoning, speedMmPerMs: track.now.belief.mean[1] };
}

/** One standard deviation at that moment. */
export function uncertaintyAt(reckoning: Reckoning, atMs: number): number {
  return placeAt(reckoning.track, carriedTo(reckoning, atMs))?.sdMm ?? reckoning.uncertaintyMm;
}

const carriedTo = (reckoning: Reckoning, atMs: number): number =>
  reckoning.by === 'travel' ? Math.min(atMs, reckoning.atMs + CARRY_ON_MS) : atMs;

/** The stock is known to have been at a station (or `offsetMm` past it) at `trueMs`, as is told at `atMs`, unless that cannot be. */
export function atStation(
  state: RunState,
  index: number,
  offsetMm: number,
  trueMs: number,
  by: 'press' | 'scan',
  atMs = trueMs,
): { readonly state: RunState; readonly verdict: EvidenceVerdict } {
  const positionMm = stationAt(state, index).positionMm + offsetMm;
  const before = state.reckoning;
  const { track, verdict } = assimilateInOrder(trackOf(state), { kind: 'fix', by, atMs: trueMs, positionMm });
  const travel = before?.travel ?? null;
  const reckoning = reckoned(track, travel === null ? by : 'travel', travel, atMs, Number.NEGATIVE_INFINITY);
  return { state: { ...state, reckoning }, verdict };
}

/** A new count: the first one after the start is position 0, or the position known by a press or scan. */
export function counted(
  state: RunState,
  mm: number,
  trueMs: number,
  atMs = trueMs,
): { readonly reckoning: Reckoning; readonly verdict: EvidenceVerdict } {
  const before = state.reckoning;
  const { track, verdict } = assimilateInOrder(trackOf(state), { kind: 'count', atMs: trueMs, mm });
  const isFirst = before?.travel == null || verdict === 'restarted';
  const gapMs = isFirst ? null : atMs - (before?.travel?.heardAtMs ?? atMs);
  const everyMs = gapMs === null ? null : smoothed(before?.travel?.everyMs ?? null, gapMs);
  const sinceMs = isFirst || before?.travel?.everyMs === null ? atMs : (before?.travel?.sinceMs ?? atMs);
  const travel: TravelCount = { lastMm: mm, heardAtMs: atMs, sinceMs, everyMs };
  return {
    reckoning: reckoned(track, 'travel', travel, atMs, before?.farthestMm ?? Number.NEGATIVE_INFINITY),
    verdict,
  };
}

const smoothed = (before: number | null, newest: number): number =>
  before === null ? newest : before + 0.2 * (newest - before);

/** The wood stands: a person has stopped the feed. */
export const standing = (state: RunState, atMs: number): RunState => told(state, { kind: 'standing', atMs });

/** The feed goes on. The pause was not the source's silence, and what moved in it was not the feed. */
export function goingOn(state: RunState, atMs: number): RunState {
  const on = told(state, { kind: 'moving', atMs });
  if (on.reckoning?.travel == null) return on;
  const travel: TravelCount = { ...on.reckoning.travel, heardAtMs: atMs, everyMs: null };
  return { ...on, reckoning: { ...on.reckoning, travel, speedMmPerMs: null } };
}

function told(state: RunState, evidence: Evidence): RunState {
  const { reckoning } = state;
  if (reckoning === null) return state;
  const { track } = assimilateInOrder(reckoning.track, evidence);
  const now = reckoned(track, reckoning.by, reckoning.travel, evidence.atMs, Number.NEGATIVE_INFINITY);
  // What was carried on since the last count is a guess, and nothing to be pulled back from.
  const farthestMm = reckoning.travel === null ? now.farthestMm : reckoning.positionMm;
  return { ...state, reckoning: { ...now, farthestMm } };
}

/** What was believed of the place is believed no longer, whatever it came from. */
export const withoutPlace = (state: RunState): RunState => ({
  ...withoutCount(state),
  ...(state.reckoning?.by === 'scan' ? { reckoning: null, guessed: 0 } : {}),
});

/** The count is believed no longer: a person's presses take over. */
export function withoutCount(state: RunState): RunState {
  const { reckoning } = state;
  if (reckoning?.travel == null) return state;
  const track = forgetCount(reckoning.track);
  return { ...state, reckoning: { ...reckoning, track, by: 'press', travel: null } };
}

const trackOf = (state: RunState): Track =>
  state.reckoning?.track ?? startTrack(mPerMinToMmPerMs(state.setup.crew.feedMPerMin));

function reckoned(
  track: Track,
  by: Reckoning['by'],
  travel: TravelCount | null,
  atMs: number,
  farthestMm: number,
): Reckoning {
  const place = placeAt(track, atMs);
  if (place === null) throw new Error('a track with evidence has a place');
  const isStanding = track.now?.isStanding === true;
  const isUnknown =
    travel !== null &&
    (travel.everyMs === null || place.speedSdMmPerMs > KNOWN_SHARE * Math.max(place.speedMmPerMs, SLOW_MM_PER_MS));
  return {
    track,
    by,
    positionMm: place.positionMm,
    atMs,
    speedMmPerMs: isStanding || isUnknown ? null : place.speedMmPerMs,
    speedSdMmPerMs: place.speedSdMmPerMs,
    uncertaintyMm: place.sdMm,
    travel,
    farthestMm: Math.max(farthestMm, place.positionMm),
  };
}

/** How far the mark that comes next lies from the one behind it, or from the one after it where none is behind; mm. */
export function spacingMm({ setup: { stations }, reached }: RunState): number {
  const last = stations.length - 1;
  const from = Math.min(Math.max(reached - 1, 0), last - 1);
  return rowAt(stations, from + 1).positionMm - rowAt(stations, from).positionMm;
}
