/** What the pace is reckoned from, and the few figures that every routine's pace shares. */

import { rowAt } from '../rowAt.ts';
import { evenPerDeg, looseDeg, type TurnsTable, wayTo, wheelAlong } from '../saw/handwheel.ts';
import { backlashAlong } from './backlashAlong.ts';
import type { PaceLimit } from './limits.ts';

/** A mark as it comes to the blade. */
export interface PacedMark {
  readonly mark: number;
  readonly alongMm: number;
  readonly callDeg: number;
  /** The exact tilt there. */
  readonly tiltDeg: number;
  /** How long the words of its call last. */
  readonly wordsS: number;
}

export interface PacedRip {
  /** In the order of the run, at least two. */
  readonly marks: readonly PacedMark[];
  /** The exact tilt along the stock in the order of the run, closer than the marks; from the first mark to the last. */
  readonly profile: readonly { readonly alongMm: number; readonly tiltDeg: number }[];
  readonly crew: { readonly reactionS: number; readonly turnsPerS: number; readonly feedMPerMin: number };
  readonly saw: {
    readonly degreesPerTurn: number;
    readonly turnsTable?: TurnsTable;
    readonly backlashTurns?: number;
    readonly readoutDeg: number;
    /** What the blade can follow in its kerf. */
    readonly twistLimitDegPerM: number;
    /** The fastest feed that saw and blade take in this depth; null where nobody has said. */
    readonly feedMPerMin: number | null;
  };
  /** How long the words of a figure alone last. */
  figureWordsS(deg: number): number;
}

/** The fastest feed over one interval and what stands in the way of more; nulls where nothing does. */
export interface Limit {
  readonly limitMPerMin: number | null;
  readonly limitedBy: PaceLimit | null;
}
export const NO_LIMIT: Limit = { limitMPerMin: null, limitedBy: null };

/** Between two things said. */
export const PAUSE_MS = 60;
export const PAUSE_S = PAUSE_MS / 1000;
/** A wheel takes up its speed, and gives it up again, within 0.2 s (assumption): so much does that cost a turn in all. */
export const START_UP_S = 0.2;

export const MM_PER_S_TO_M_PER_MIN = 0.06;

/**
 * Where the wheel stands at each mark of the run, in even degrees (see saw/handwheel.ts). `before`: the figures that were turned to
 * before the first of them, where it is not set from square.
 */
export const wheelAtMarks = ({ marks, saw }: PacedRip, before: readonly number[] = []): readonly number[] =>
  wheelAlong(
    saw,
    marks.map(({ callDeg }) => callDeg),
    wayTo([...before, rowAt(marks, 0).callDeg]),
  );

/**
 * The same where the exact tilt is followed, and what of it may be behind. Looseness is taken up over all the stock on which the tilt
 * is within half of what the readout does not show of where it turns back; the other half is left for the rest.
 */
export function wheelOverProfile(rip: PacedRip): { readonly deg: readonly number[]; readonly slackDeg: number } {
  const { profile, saw } = rip;
  const tilts = profile.map(({ tiltDeg }) => tiltDeg);
  const before = wayTo([rowAt(tilts, 0)]);
  const slackDeg = shownFromDeg(rip) * evenPerDegOver(rip).least;
  if (looseDeg(saw) === 0) return { deg: wheelAlong(saw, tilts, before), slackDeg };
  const along = profile.map(({ alongMm }) => alongMm);
  return { deg: backlashAlong(saw, along, tilts, before, shownFromDeg(rip) / 2), slackDeg: slackDeg / 2 };
}

/** The least even degrees that a degree of tilt takes on this frame, and the most. */
export function evenPerDegOver({ profile, saw }: PacedRip): { readonly least: number; readonly most: number } {
  let [least, most] = [Number.POSITIVE_INFINITY, 0];
  for (const { tiltDeg } of profile) {
    const perDeg = evenPerDeg(saw, tiltDeg);
    [least, most] = [Math.min(least, perDeg), Math.max(most, perDeg)];
  }
  return { least, most };
}

/** From the start of a call until its bevel stands, in whatever unit the three parts are in (s for a plan, ms for a run). */
export const crewTime = (words: number, reaction: number, wheel: number): number => words + reaction + wheel;

/** A bevel is there when the readout shows it: from half a step before. */
export const shownFromDeg = ({ saw }: PacedRip): number => saw.readoutDeg / 2;

/** The feed at which so many seconds pass over so much stock. Null where no time is needed. */
export function feedOver(lengthMm: number, neededS: number, limitedBy: PaceLimit): Limit {
  if (!(neededS > 0)) return NO_LIMIT;
  const limitMPerMin = (lengthMm * MM_PER_S_TO_M_PER_MIN) / neededS;
  return Number.isFinite(limitMPerMin) ? { limitMPerMin, limitedBy } : NO_LIMIT;
}

/** The slowest of some limits; of two alike the first. */
export const slowestOf = (limits: readonly Limit[]): Limit =>
  limits.reduce(
    (a, b) => ((b.limitMPerMin ?? Number.POSITIVE_INFINITY) < (a.limitMPerMin ?? Number.POSITIVE_INFINITY) ? b : a),
    NO_LIMIT,
  );

/** Of some things that each take their time, the one that takes most. */
export const greatestShare = (shares: readonly (readonly [PaceLimit, number])[]): PaceLimit =>
  shares.reduce((a, b) => (b[1] > a[1] ? b : a))[0];
