/** The turns in a record that can be read: each from a stand, to one call that was heard out, as far as its full rate shows. */

import { median } from '../../numeric/median.ts';
import { rowAt } from '../../rowAt.ts';
import type { AskedBevel, HandRecord, TiltReading } from './handRecord.ts';

export interface ReadTurn {
  /** When the words were over. */
  readonly overMs: number;
  /** From the stand to well into the turn: what the beginning is fitted to. */
  readonly readings: readonly TiltReading[];
  /** How far it went, signed. */
  readonly wayDeg: number;
  /** It goes on in the way of the turn before, so that no looseness of the wheel had to be taken up. */
  readonly isOnward: boolean;
  /** The first bevel is set with time in hand: it says nothing of how fast this person answers. */
  readonly isFirst: boolean;
}

/** No call is understood sooner after its words than this (Luce, Response Times, 1986, takes 100 ms, from memory). */
export const SOONEST_MS = 100;
/** The stand is looked for in the longest of these spans before the words are over that has no movement in it. */
const STANDS_MS = [1000, 600, 300];
/** Shorter turns than this many times the noise, or this, show no beginning. */
const LEAST_NOISES = 6;
const LEAST_DEG = 0.4;
/** The beginning is fitted up to this share of the way: behind it a hand slows down into the figure. */
const FITTED_SHARE = 0.6;
/** A hand that ends so far from the figure called, beside what the sensor is off by all the time, has turned to another one. */
const OTHER_FIGURE_DEG = 1;
/** A long run tells no more of a person than its last so many calls. */
const MOST_CALLS = 120;

interface Span {
  readonly bevel: AskedBevel;
  readonly isFirst: boolean;
  readonly stood: readonly TiltReading[];
  readonly turning: readonly TiltReading[];
}

/** `noise`: of a reading, in degrees. */
export function readTurns(record: HandRecord, noise: number): readonly ReadTurn[] {
  const firstIndex = Math.max(0, record.bevels.length - MOST_CALLS);
  const found = record.bevels.slice(firstIndex).flatMap((bevel, i) => {
    const span = spanOf(record, bevel, firstIndex + i);
    return span === null ? [] : [turnIn(span, noise)];
  });
  const ended = found.flatMap((each) => (each.turn === null ? [] : [each.offDeg]));
  const offsetDeg = ended.length === 0 ? 0 : median(ended);
  return found.flatMap(({ turn, offDeg, wayDeg }, i) => {
    if (turn === null || Math.abs(offDeg - offsetDeg) > OTHER_FIGURE_DEG) return [];
    const before = found.slice(0, i).findLast((each) => Math.abs(each.wayDeg) > 2 * noise);
    return [{ ...turn, isOnward: before !== undefined && Math.sign(before.wayDeg) === Math.sign(wayDeg) }];
  });
}

/** What was read from before the words to where the next call, or a "hold", is answered; null where the call cannot be used. */
function spanOf({ bevels, heldAtMs, tilts }: HandRecord, bevel: AskedBevel, index: number): Span | null {
  const before = bevels[index - 1];
  const next = bevels[index + 1];
  const heldMs = heldAtMs.find((atMs) => atMs >= bevel.startsAtMs) ?? Number.POSITIVE_INFINITY;
  const untilMs = Math.min(next?.overMs ?? Number.POSITIVE_INFINITY, heldMs) + SOONEST_MS;
  if (!bevel.isHeardOut || heldMs < bevel.overMs) return null;
  const standsMs = bevel.overMs + SOONEST_MS;
  const earliestMs = Math.max(before?.overMs ?? Number.NEGATIVE_INFINITY, standsMs - rowAt(STANDS_MS, 0));
  // The reading before the span stands for it where the source was silent.
  const first = Math.max(0, indexFrom(tilts, earliestMs) - 1);
  const all = tilts.slice(first, indexFrom(tilts, untilMs));
  const behind = all.findIndex(({ atMs }) => atMs >= standsMs);
  if (behind < 1) return null;
  return { bevel, isFirst: index === 0, stood: all.slice(0, behind), turning: all.slice(behind) };
}

/** Index of the first reading that is not before this time. */
function indexFrom(tilts: readonly TiltReading[], atMs: number): number {
  let [low, high] = [0, tilts.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (rowAt(tilts, middle).atMs < atMs) low = middle + 1;
    else high = middle;
  }
  return low;
}

interface Found {
  readonly turn: Omit<ReadTurn, 'isOnward'> | null;
  /** Where it ended less where it was called to. */
  readonly offDeg: number;
  readonly wayDeg: number;
}

function turnIn({ bevel, isFirst, stood, turning }: Span, noise: number): Found {
  const endDeg = median(turning.slice(-5).map(({ deg }) => deg));
  const still = standing(stood, bevel.overMs + SOONEST_MS, noise);
  const wayDeg = endDeg - median((still ?? stood.slice(-3)).map(({ deg }) => deg));
  const offDeg = endDeg - bevel.toDeg;
  const isLong = Math.abs(wayDeg) >= Math.max(LEAST_DEG, LEAST_NOISES * noise);
  if (still === null || !isLong) return { turn: null, offDeg, wayDeg };
  const whole = [...still, ...turning];
  const upTo = reaches(whole, endDeg - (1 - FITTED_SHARE) * wayDeg, Math.sign(wayDeg));
  return { turn: { overMs: bevel.overMs, readings: whole.slice(0, upTo + 1), wayDeg, isFirst }, offDeg, wayDeg };
}

/** The readings of the stand before the words are understood; null where the hand was still turning then. */
function standing(stood: readonly TiltReading[], standsMs: number, noise: number): readonly TiltReading[] | null {
  for (const spanMs of STANDS_MS) {
    const inside = stood.filter(({ atMs }) => atMs >= standsMs - spanMs);
    const readings = inside.length === 0 ? stood.slice(-1) : inside;
    const half = readings.length >> 1;
    if (half === 0) return readings;
    const moved = mean(readings.slice(half)) - mean(readings.slice(0, half));
    if (Math.abs(moved) <= Math.max(0.03, 3 * noise * Math.sqrt(2 / half))) return readings;
  }
  return null;
}

const mean = (readings: readonly TiltReading[]): number =>
  readings.reduce((sum, { deg }) => sum + deg, 0) / readings.length;

/** Index of the first reading from which, by the middle of three, the tilt is past `deg`. */
function reaches(readings: readonly TiltReading[], deg: number, sign: number): number {
  const at = readings.findIndex((reading, i) => {
    const three = [readings[i - 1] ?? reading, reading, readings[i + 1] ?? reading].map((each) => each.deg);
    return sign * (median(three) - deg) >= 0;
  });
  return at < 0 ? readings.length - 1 : at;
}
