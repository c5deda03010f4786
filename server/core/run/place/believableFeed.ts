/** How fast the wood is believed to be fed at most: what comes faster is no feed but a hasty foot or a code that was read wrongly. */
import type { Plan } from '../../plan/plan.ts';
import { mPerMinToMmPerMs } from '../../units.ts';
import type { RunSetup } from '../engine/state.ts';

/** Faster than this nobody feeds by hand (assumption), however far apart the marks are. */
const HAND_M_PER_MIN = 20;
/** The ceiling stands so far above the fastest feed that is believed, */
const CEILING_SHARE = 1.5;
/** is never lower than this, for a crew may well feed faster than it said, */
const LOWEST_CEILING_M_PER_MIN = 12;
/** and never higher than this: a metre a second. */
const HIGHEST_CEILING_M_PER_MIN = 60;
/**
 * A foot is early or late by a tenth of a second (standard deviation, assumption, as in the track): one press late by three of
 * them and the next one early by three may follow each other so much closer than their marks.
 */
const FEET_MS = 600;

/** The fastest feed that a plan allows somewhere, or that its crew says it feeds at; m/min. */
export const believableFeed = ({ crew, pace }: Pick<Plan, 'crew' | 'pace'>): number =>
  Math.max(crew.feedMPerMin, Math.min(HAND_M_PER_MIN, Math.max(...pace.intervals.map((each) => each.limitMPerMin))));

export interface Ceiling {
  readonly mmPerMs: number;
  /** On top of it, once: what feet do wrong. */
  readonly slackMm: number;
}

/** Null in a run of before, which has none: its record is read as it was taken. */
export function ceilingOf({ fastestMPerMin }: RunSetup): Ceiling | null {
  if (fastestMPerMin === undefined) return null;
  const mPerMin = Math.min(
    HIGHEST_CEILING_M_PER_MIN,
    Math.max(LOWEST_CEILING_M_PER_MIN, CEILING_SHARE * fastestMPerMin),
  );
  const believed = Math.min(fastestMPerMin, mPerMin / CEILING_SHARE);
  return { mmPerMs: mPerMinToMmPerMs(mPerMin), slackMm: FEET_MS * mPerMinToMmPerMs(believed) };
}
