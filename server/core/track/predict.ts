/** What is known, carried on to a moment: the feed wanders, and so does a wheel's count. */
import { rowAt } from '../rowAt.ts';
import { type Belief, carryOn, type Wander } from './kalman.ts';
import type { Known } from './track.ts';

/**
 * How much of the speed, squared and by the millisecond, it may have changed: a slow feed wanders by less than a fast one.
 * Hand feeding wanders by 3 % in a second (assumption, from the modelled feed): at 3 m/min 2 mm^2/s^3.
 */
const STEADY_SHARE = 8e-7;
/** With marks alone the speed between them is a person's: it may wander by a tenth or two from one mark to the next (assumption). */
const UNSEEN_SHARE = 6e-6;
/** But no feed is so slow that nothing is to be expected of it: 1 m/min (assumption). */
const SLOWEST_MM_PER_MS = 1 / 60;
/**
 * A foot tells of stops too; a reader sees nothing between its marks, and a slow feed can stop or quicken there like a fast one:
 * doubt as at 3 m/min, so that the lead keeps what it needs (whole modelled runs were late with less).
 */
const READ_ONLY_MM_PER_MS = 0.05;
/**
 * The count's zero goes with its slip: 1.2 mm from one mark to the next, 150 mm on. Half a percent steadily is 0.75 mm; the rest
 * makes up for its always going the same way. Twice as much weighs each mark's own error too high (chosen on modelled runs).
 */
const ZERO_PER_MM = 0.01;
/** So many fixes within a second are a camera's: from one to the next nothing goes far, so that less of a leap is false. */
export const CAMERA_FIXES = 5;
/** A count, or a camera, that has spoken within this time counts as looking. */
export const FRESH_MS = 1000;

/** The belief at a moment that is not before the last evidence. */
export function beliefAt(known: Known, atMs: number): Belief {
  const { belief } = known;
  if (atMs === belief.atMs) return belief;
  if (known.isStanding) return { atMs, mean: belief.mean, cov: belief.cov };
  // What is seen is carried on as such while that is fresh, so that the doubt grows without a leap when it is no longer.
  const seenUntil = seenUntilMs(known);
  if (seenUntil >= atMs) return carryOn(belief, atMs, seenWander(belief));
  const seen = seenUntil > belief.atMs ? carryOn(belief, seenUntil, seenWander(belief)) : belief;
  const slowest = known.fix?.by === 'press' ? SLOWEST_MM_PER_MS : READ_ONLY_MM_PER_MS;
  return carryOn(seen, atMs, { acceleration: UNSEEN_SHARE * squaredPace(belief, slowest), zeroPerMm: 0 });
}

const seenWander = (belief: Belief): Wander => ({
  acceleration: STEADY_SHARE * squaredPace(belief, SLOWEST_MM_PER_MS),
  zeroPerMm: ZERO_PER_MM,
});

function squaredPace({ mean }: Belief, slowestMmPerMs: number): number {
  const pace = Math.max(Math.abs(mean[1]), slowestMmPerMs);
  return pace * pace;
}

/** Until when a source that looks all the time, a count or a camera, counts as looking. */
function seenUntilMs({ count, recentFixesMs }: Known): number {
  const countedMs = count === null ? Number.NEGATIVE_INFINITY : count.atMs + FRESH_MS;
  if (recentFixesMs.length < CAMERA_FIXES) return countedMs;
  return Math.max(countedMs, rowAt(recentFixesMs, recentFixesMs.length - CAMERA_FIXES) + FRESH_MS);
}
