/** Marks evenly spaced anew between two that stay, and the pace that they would have. */

import { toStep } from '../figures/rounding.ts';
import type { PacedMark, PacedRip } from '../routine/crewTime.ts';
import { markByMark } from '../routine/markByMark.ts';

/** A rip whose marks can be thought elsewhere. Girths from the heel. */
export interface Respaceable extends PacedRip {
  /** Of the marks as they are, from the heel. */
  readonly girthsMm: readonly number[];
  readonly headLeads: boolean;
  /** New marks stand at whole multiples of this from the heel. */
  readonly wholeMm: number;
  /** What the plan would make of a mark there, were it the `mark`th. */
  markAt(girthMm: number, mark: number): PacedMark;
  /** How far a saw that is turned evenly between the calls at these girths strays from the fair bevel, degrees. */
  straysDeg(girthsMm: readonly number[]): number;
}

export interface Respaced {
  /** Intervals between the two marks then, less those now. */
  readonly moreMarks: number;
  readonly spacingMm: number;
  /** Of all marks of the new plan. */
  readonly girthsMm: readonly number[];
  /** The slowest of those intervals. */
  readonly limitMPerMin: number;
}

/** More marks than now stand no closer than this: a printed code has no room then (mm). */
const CLOSEST_MM = 40;
/** A turn evenly between two calls may stray by a whole step of the readout: half of it is the calls' own rounding. */
const STRAYS_STEPS = 1;

/**
 * Every even spacing between the marks `fromMark` and `toMark` (numbers from the heel) that keeps to the bevel as well as the
 * marks of now do, or within one step of the readout.
 */
export function respacings(rip: Respaceable, fromMark: number, toMark: number): readonly Respaced[] {
  const heelward = rip.girthsMm.slice(0, fromMark);
  const headward = rip.girthsMm.slice(toMark - 1);
  const [fromMm, toMm] = [heelward.at(-1), headward[0]];
  if (fromMm === undefined || toMm === undefined || toMm <= fromMm) return [];
  const now = toMark - fromMark;
  const allowedDeg = Math.max(
    rip.straysDeg(rip.girthsMm.slice(fromMark - 1, toMark)),
    STRAYS_STEPS * rip.saw.readoutDeg,
  );
  const firstOfRun = rip.headLeads ? toMark : fromMark;
  const beforeIt = rip.marks.findIndex(({ mark }) => mark === firstOfRun);
  const before = rip.marks.slice(0, Math.max(0, beforeIt)).map(({ callDeg }) => callDeg);
  const found: Respaced[] = [];
  for (const intervals of countsToTry(now)) {
    const spacingMm = (toMm - fromMm) / intervals;
    if (intervals > now && spacingMm < CLOSEST_MM) continue;
    const inner = Array.from({ length: intervals - 1 }, (_, i) =>
      toStep(fromMm + (i + 1) * spacingMm, rip.wholeMm, 'nearest'),
    );
    const stretch = [fromMm, ...inner, toMm];
    if (stretch.some((mm, i) => i > 0 && mm <= (stretch[i - 1] ?? mm))) continue;
    if (rip.straysDeg(stretch) > allowedDeg) continue;
    const marks = stretch.map((girthMm, i) => rip.markAt(girthMm, fromMark + i));
    const paced = markByMark({ ...rip, marks: rip.headLeads ? marks.toReversed() : marks }, before);
    found.push({
      moreMarks: intervals - now,
      spacingMm,
      girthsMm: [...heelward, ...inner, ...headward],
      limitMPerMin: paced.reduce((least, { limitMPerMin }) => Math.min(least, limitMPerMin), Number.POSITIVE_INFINITY),
    });
  }
  return found;
}

/** Of a long stretch not every count is tried, and of a very long one fewer still. */
const COUNTS = 40;
const FEWER_COUNTS = 10;
const VERY_LONG = 100;

/** From one interval up to twice as many as now. */
function countsToTry(now: number): readonly number[] {
  const by = Math.max(1, Math.ceil((2 * now) / (now > VERY_LONG ? FEWER_COUNTS : COUNTS)));
  return Array.from({ length: Math.floor((2 * now - 1) / by) + 1 }, (_, i) => 1 + i * by);
}
