/**
 * How fast the stock may be fed in each routine, so that every bevel can be said, understood and turned to in time: at every
 * interval and over the whole rip, what stands in the way of more, and how long the rip takes.
 */

import { type Limit, MM_PER_S_TO_M_PER_MIN, type PacedRip, slowestOf } from '../routine/crewTime.ts';
import { turnedOver } from '../routine/following.ts';
import type { Pace, RoutinePace } from '../routine/limits.ts';
import { markByMark } from '../routine/markByMark.ts';
import { ROUTINES, type Routine } from '../routine/routine.ts';
import { routineNamed } from '../routine/routines.ts';
import { lastRow, rowAt } from '../rowAt.ts';

/** Without the suggestions. Feeds in m/min. */
export function paceOf(rip: PacedRip): Pace {
  const intervals = markByMark(rip);
  const toPace = { rip, intervals, turnedDegPerMm: turnedOver(rip) };
  const slowest = intervals.reduce((a, b) => (b.limitMPerMin < a.limitMPerMin ? b : a));
  const { limitMPerMin, limitedBy } = slowest;
  return {
    limitMPerMin,
    limitedBy,
    durationS: durationS(rip, limitMPerMin),
    intervals,
    routines: Object.fromEntries(
      ROUTINES.map((name) => [name, routinePace(rip, routineNamed(name).limits(toPace))]),
    ) as Record<Routine, RoutinePace>,
  };
}

function routinePace(rip: PacedRip, limits: readonly Limit[]): RoutinePace {
  const saw: Limit =
    rip.saw.feedMPerMin === null
      ? { limitMPerMin: null, limitedBy: null }
      : { limitMPerMin: rip.saw.feedMPerMin, limitedBy: 'saw' };
  const intervals = limits.map(({ limitMPerMin, limitedBy }) => slowestOf([{ limitMPerMin, limitedBy }, saw]));
  const slowest = slowestOf(intervals);
  return { ...slowest, durationS: durationS(rip, slowest.limitMPerMin), intervals };
}

/** At the crew's own feed, or at the limit where that is slower. */
function durationS({ marks, crew }: PacedRip, limitMPerMin: number | null): number {
  const spanMm = Math.abs(lastRow(marks).alongMm - rowAt(marks, 0).alongMm);
  const feedMPerMin = Math.min(crew.feedMPerMin, limitMPerMin ?? Number.POSITIVE_INFINITY);
  return (spanMm * MM_PER_S_TO_M_PER_MIN) / feedMPerMin;
}
