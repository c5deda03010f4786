/**
 * What helps where the crew's own feed is faster than `mark by mark` allows: to feed slower there, other marks there, or another
 * routine. Every figure is reckoned by the functions that reckon the pace, and rounded down, so that a new plan keeps it.
 */

import { roundedDown } from '../figures/rounding.ts';
import { MM_PER_S_TO_M_PER_MIN } from '../routine/crewTime.ts';
import type { Pace, PaceSuggestion } from '../routine/limits.ts';
import { ROUTINES_BY_TRAVEL } from '../routine/routines.ts';
import { rowAt } from '../rowAt.ts';
import { type Respaceable, type Respaced, respacings } from './respace.ts';

type Interval = Pace['intervals'][number];
/** Indexes of the first and the last interval of a slow stretch, in the order of the run. */
interface Stretch {
  readonly first: number;
  readonly last: number;
}

/** A sawyer minds so many changes of feed in one rip, not more; and none for the sake of so few intervals between two of them. */
const MOST_STRETCHES = 3;
const JOINED_OVER = 2;

export function suggestionsFor(pace: Pace, rip: Respaceable): readonly PaceSuggestion[] {
  const feed = rip.crew.feedMPerMin;
  const stretches = slowStretches(pace.intervals, feed);
  if (stretches.length === 0) return [];
  return [
    ...slowDown(pace.intervals, stretches, feed),
    ...stretches.flatMap((stretch) => otherMarks(pace.intervals, stretch, rip)),
    ...otherRoutine(pace, feed),
  ];
}

function slowStretches(intervals: readonly Interval[], feedMPerMin: number): readonly Stretch[] {
  const stretches: Stretch[] = [];
  intervals.forEach(({ limitMPerMin }, i) => {
    if (limitMPerMin >= feedMPerMin) return;
    const before = stretches.at(-1);
    if (before !== undefined && i - before.last <= JOINED_OVER)
      stretches.splice(-1, 1, { first: before.first, last: i });
    else stretches.push({ first: i, last: i });
  });
  const [first, last] = [stretches[0], stretches.at(-1)];
  if (stretches.length <= MOST_STRETCHES || first === undefined || last === undefined) return stretches;
  return [{ first: first.first, last: last.last }];
}

function slowDown(
  intervals: readonly Interval[],
  stretches: readonly Stretch[],
  feedMPerMin: number,
): PaceSuggestion[] {
  const feeds = intervals.map(() => feedMPerMin);
  for (const { first, last } of stretches) feeds.fill(roundedDown(slowestIn(intervals, first, last)), first, last + 1);
  const durationS = intervals.reduce(
    (sum, { lengthMm }, i) => sum + (lengthMm * MM_PER_S_TO_M_PER_MIN) / (feeds[i] ?? feedMPerMin),
    0,
  );
  return stretches.map(({ first, last }) => ({
    kind: 'slow',
    ...endsOf(intervals, first, last),
    toMPerMin: feeds[first] ?? feedMPerMin,
    durationS,
  }));
}

/** Looked at beyond the slow stretch on either side, in intervals; for a long stretch they make no difference. */
const BEYOND = [0, 1, 2];
const LONG = 40;
/** Other marks that allow less than so much more are not worth the trouble. */
const WORTH = 1.1;

function otherMarks(intervals: readonly Interval[], { first, last }: Stretch, rip: Respaceable): PaceSuggestion[] {
  const feed = rip.crew.feedMPerMin;
  const beyond = last - first < LONG ? BEYOND : [0];
  const tried = beyond.flatMap((before) =>
    beyond
      .filter((after) => first - before >= 0 && last + after < intervals.length)
      .flatMap((after) => {
        const ends = endsOf(intervals, first - before, last + after);
        return respacings(rip, ends.fromMark, ends.toMark).map((found) => ({ ...ends, ...found }));
      }),
  );
  const best = tried.reduce<(typeof tried)[number] | undefined>(
    (a, b) => (a === undefined || isBetter(b, a, feed) ? b : a),
    undefined,
  );
  if (best === undefined || Math.min(feed, best.limitMPerMin) < WORTH * slowestIn(intervals, first, last)) return [];
  const { limitMPerMin, ...marks } = best;
  return [{ kind: 'marks', ...marks, allowsMPerMin: roundedDown(limitMPerMin) }];
}

/** The crew's own feed is enough; then the one that changes least. */
function isBetter(a: Respaced, b: Respaced, feedMPerMin: number): boolean {
  const gain = Math.min(feedMPerMin, a.limitMPerMin) - Math.min(feedMPerMin, b.limitMPerMin);
  return gain === 0 ? Math.abs(a.moreMarks) < Math.abs(b.moreMarks) : gain > 0;
}

/** The first that allows the crew's own feed, in the order of what it asks of the people. */
function otherRoutine({ routines }: Pace, feedMPerMin: number): PaceSuggestion[] {
  const found = ROUTINES_BY_TRAVEL.find(
    (name) => (routines?.[name].limitMPerMin ?? Number.POSITIVE_INFINITY) >= feedMPerMin,
  );
  if (found === undefined || routines === undefined) return [];
  const { limitMPerMin } = routines[found];
  return [{ kind: 'routine', routine: found, allowsMPerMin: limitMPerMin === null ? null : roundedDown(limitMPerMin) }];
}

const slowestIn = (intervals: readonly Interval[], first: number, last: number): number =>
  intervals
    .slice(first, last + 1)
    .reduce((least, { limitMPerMin }) => Math.min(least, limitMPerMin), Number.POSITIVE_INFINITY);

/** The marks at the two ends, the lower number first: on the stock they are read so, whichever end leads. */
function endsOf(intervals: readonly Interval[], first: number, last: number): { fromMark: number; toMark: number } {
  const marks = [rowAt(intervals, first).fromMark, rowAt(intervals, last).toMark];
  return { fromMark: Math.min(...marks), toMark: Math.max(...marks) };
}
