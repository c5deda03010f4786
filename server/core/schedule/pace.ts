/**
 * How fast the stock may be fed, so that every bevel can be said, understood and turned before its mark is at the blade.
 *
 * The call for a mark is spoken when the mark before it reaches the blade. Then follow, one after the other, the words, the
 * tilt hand's reaction and the turning of the wheel; the feed that leaves just that time over the interval is its limit.
 */
import type { Pace, PaceLimit } from '../plan.ts';

/** A mark as it comes to the blade. */
export interface PacedMark {
  readonly mark: number;
  readonly alongMm: number;
  readonly callDeg: number;
  /** How long the words of its call last. */
  readonly wordsS: number;
}
export interface PacedCrew {
  readonly reactionS: number;
  readonly turnsPerS: number;
  readonly feedMPerMin: number;
}

const MM_PER_S_TO_M_PER_MIN = 0.06;

/** The pace over `marks` in the order of the run, at least two of them. */
export function paceOf(marks: readonly PacedMark[], crew: PacedCrew, degreesPerTurn: number): Pace {
  const intervals = marks.slice(1).map((to, i) => {
    const from = marks[i] ?? to;
    return intervalOf(from, to, crew, degreesPerTurn);
  });
  const slowest = intervals.reduce((a, b) => (b.limitMPerMin < a.limitMPerMin ? b : a));
  const spanMm = intervals.reduce((sum, { lengthMm }) => sum + lengthMm, 0);
  const feedMPerMin = Math.min(crew.feedMPerMin, slowest.limitMPerMin);
  return {
    limitMPerMin: slowest.limitMPerMin,
    limitedBy: slowest.limitedBy,
    durationS: (spanMm * MM_PER_S_TO_M_PER_MIN) / feedMPerMin,
    intervals,
  };
}

function intervalOf(
  from: PacedMark,
  to: PacedMark,
  crew: PacedCrew,
  degreesPerTurn: number,
): Pace['intervals'][number] {
  const lengthMm = Math.abs(to.alongMm - from.alongMm);
  const wheelS = Math.abs(to.callDeg - from.callDeg) / (degreesPerTurn * crew.turnsPerS);
  const shares: readonly (readonly [PaceLimit, number])[] = [
    ['words', to.wordsS],
    ['reaction', crew.reactionS],
    ['wheel', wheelS],
  ];
  const neededS = shares.reduce((sum, [, s]) => sum + s, 0);
  return {
    fromMark: from.mark,
    toMark: to.mark,
    lengthMm,
    wordsS: to.wordsS,
    reactionS: crew.reactionS,
    wheelS,
    limitMPerMin: (lengthMm * MM_PER_S_TO_M_PER_MIN) / neededS,
    limitedBy: shares.reduce((a, b) => (b[1] > a[1] ? b : a))[0],
  };
}
