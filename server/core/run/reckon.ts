/**
 * Where the stock is, from the evidence at hand. Scanned marks and presses are absolute and overrule the count of travel;
 * between readings the position is carried on at the speed last known, for a short time only.
 */
import type { Reckoning, RunState } from './state.ts';
import { stationAt } from './turn.ts';

/** A count is believed to this much at once, and loses half a percent on the way (slip of a rubber wheel, assumption). */
const COUNT_ERROR_MM = 1;
const SLIP = 0.005;
/** How well a person presses as a mark passes: a tenth of a second at a usual feed of 50 mm/s (assumption). */
const PRESS_ERROR_MM = 5;
const SCAN_ERROR_MM = 3;
/** Speed is smoothed over this time: long against the noise of a reading, short against a change of feed. */
const SPEED_MEMORY_MS = 400;
/** A count is carried on no longer than this without a new reading. */
const CARRY_ON_MS = 500;
/** No rip is fed at 30 m/min: a count that jumps so is a source that was moved or a script, and tells nothing of the speed. */
const FASTEST_FEED_MM_PER_MS = 0.5;

/** Position at a moment after the last reading; a source of marks alone is carried on without limit, a count only briefly. */
export function positionAt(reckoning: Reckoning, atMs: number): number {
  const since = Math.max(0, atMs - reckoning.atMs);
  const carried = reckoning.by === 'travel' ? Math.min(since, CARRY_ON_MS) : since;
  return reckoning.positionMm + (reckoning.speedMmPerMs ?? 0) * carried;
}

/** The stock is known to be at a station (or `offsetMm` past it) at this moment. */
export function atStation(
  state: RunState,
  index: number,
  offsetMm: number,
  atMs: number,
  by: 'press' | 'scan',
): RunState {
  const positionMm = stationAt(state, index).positionMm + offsetMm;
  const before = state.reckoning;
  const travel = before?.travel ?? null;
  const reckoning: Reckoning = {
    by: travel === null ? by : 'travel',
    positionMm,
    atMs,
    speedMmPerMs: travel === null ? speedBetween(before, positionMm, atMs) : (before?.speedMmPerMs ?? null),
    uncertaintyMm: by === 'scan' ? SCAN_ERROR_MM : PRESS_ERROR_MM,
    travel: travel === null ? null : { ...travel, zeroMm: countAt(before, atMs) - positionMm },
    farthestMm: positionMm,
  };
  return { ...state, reckoning };
}

function speedBetween(before: Reckoning | null, positionMm: number, atMs: number): number | null {
  if (before === null || atMs <= before.atMs || positionMm <= before.positionMm) return null;
  const speed = (positionMm - before.positionMm) / (atMs - before.atMs);
  return speed > FASTEST_FEED_MM_PER_MS ? null : speed;
}

/** What the source would count now, carried on from its last reading. */
function countAt(reckoning: Reckoning | null, atMs: number): number {
  if (reckoning?.travel == null) return 0;
  return (
    reckoning.travel.lastMm +
    (reckoning.speedMmPerMs ?? 0) * Math.min(Math.max(0, atMs - reckoning.travel.lastAtMs), CARRY_ON_MS)
  );
}

/** A count that falls by more than this between two readings was begun anew by its source: nobody pulls stock back so fast. */
const COUNT_RESTARTED_MM = 100;
export const isCountRestarted = (reckoning: Reckoning | null, mm: number): boolean =>
  reckoning?.travel != null && reckoning.travel.lastMm - mm > COUNT_RESTARTED_MM;

/** A new count: the first one after the start is position 0, or the position known by a press or scan. */
export function counted(reckoning: Reckoning | null, mm: number, atMs: number): Reckoning {
  const travel = reckoning?.travel ?? null;
  if (reckoning === null || travel === null || isCountRestarted(reckoning, mm)) {
    const positionMm = reckoning === null ? 0 : positionAt(reckoning, atMs);
    return {
      by: 'travel',
      positionMm,
      atMs,
      speedMmPerMs: reckoning?.speedMmPerMs ?? null,
      uncertaintyMm: reckoning?.uncertaintyMm ?? COUNT_ERROR_MM,
      travel: { lastMm: mm, lastAtMs: atMs, heardAtMs: atMs, zeroMm: mm - positionMm, everyMs: null },
      farthestMm: positionMm,
    };
  }
  const positionMm = mm - travel.zeroMm;
  const dtMs = atMs - travel.lastAtMs;
  return {
    ...reckoning,
    by: 'travel',
    positionMm,
    atMs,
    speedMmPerMs:
      dtMs <= 0 ? reckoning.speedMmPerMs : smoothedSpeed(reckoning.speedMmPerMs, (mm - travel.lastMm) / dtMs, dtMs),
    uncertaintyMm: Math.max(COUNT_ERROR_MM, reckoning.uncertaintyMm + SLIP * Math.abs(mm - travel.lastMm)),
    travel: { ...travel, lastMm: mm, lastAtMs: atMs, heardAtMs: atMs, everyMs: smoothedInterval(travel.everyMs, dtMs) },
    farthestMm: Math.max(reckoning.farthestMm, positionMm),
  };
}

function smoothedSpeed(before: number | null, newest: number, dtMs: number): number | null {
  if (Math.abs(newest) > FASTEST_FEED_MM_PER_MS) return null;
  if (before === null) return newest;
  return before + (1 - Math.exp(-dtMs / SPEED_MEMORY_MS)) * (newest - before);
}

function smoothedInterval(before: number | null, dtMs: number): number {
  return before === null ? dtMs : before + 0.2 * (dtMs - before);
}

/** The wood stands: no speed is carried over, and the position is what it was at the last reading. */
export function standing(state: RunState): RunState {
  const { reckoning } = state;
  if (reckoning === null) return state;
  return { ...state, reckoning: { ...reckoning, speedMmPerMs: null, farthestMm: reckoning.positionMm } };
}

/** The count is believed no longer: a person's presses take over. */
export function withoutCount(state: RunState): RunState {
  const { reckoning } = state;
  if (reckoning?.travel == null) return state;
  return { ...state, reckoning: { ...reckoning, by: 'press', travel: null, speedMmPerMs: null } };
}
