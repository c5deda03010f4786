/**
 * The pace of the routine `mark by mark`. The call for a mark is spoken when the mark before it reaches the blade. Then follow,
 * one after the other, the words, the tilt hand's reaction and the turning of the wheel in one go; the feed that leaves just
 * that time over the interval is its limit.
 *
 * That the blade can follow such a turn in its kerf is another matter, and no feed sees to it: the slower the feed, the more a
 * turn in one go twists the kerf (see quickTurn.ts). Where the bevel itself changes faster than the blade follows, the limit is
 * called one of twist, at the same figure.
 */

import { rowAt } from '../rowAt.ts';
import { timeOfTurnS } from '../saw/handwheel.ts';
import {
  crewTime,
  greatestShare,
  MM_PER_S_TO_M_PER_MIN,
  type PacedMark,
  type PacedRip,
  wheelAtMarks,
} from './crewTime.ts';
import type { Pace } from './limits.ts';
import type { PlannedRoutine } from './plannedRoutine.ts';

export const MARK_BY_MARK: PlannedRoutine = {
  name: 'mark by mark',
  needsTravel: false,
  isTurnedInOneGo: true,
  isTurnedEvenly: false,
  isByDegrees: false,
  isFollowed: false,
  limits: ({ intervals }) => intervals,
};

/** `before`: the figures before the first mark, where these are not all of the rip's. */
export function markByMark(rip: PacedRip, before: readonly number[] = []): Pace['intervals'] {
  const wheel = wheelAtMarks(rip, before);
  return rip.marks
    .slice(1)
    .map((to, i) => intervalOf(rip, rip.marks[i] ?? to, to, Math.abs(rowAt(wheel, i + 1) - rowAt(wheel, i))));
}

function intervalOf(rip: PacedRip, from: PacedMark, to: PacedMark, turnedDeg: number): Pace['intervals'][number] {
  const { reactionS } = rip.crew;
  const lengthMm = Math.abs(to.alongMm - from.alongMm);
  const wheelS = timeOfTurnS(rip, turnedDeg);
  const inTime = (lengthMm * MM_PER_S_TO_M_PER_MIN) / crewTime(to.wordsS, reactionS, wheelS);
  const saws = rip.saw.feedMPerMin ?? Number.POSITIVE_INFINITY;
  const share = greatestShare([
    ['words', to.wordsS],
    ['reaction', reactionS],
    ['wheel', wheelS],
  ]);
  return {
    fromMark: from.mark,
    toMark: to.mark,
    lengthMm,
    wordsS: to.wordsS,
    reactionS,
    wheelS,
    limitMPerMin: Math.min(inTime, saws),
    limitedBy: saws <= inTime ? 'saw' : isTooTwisted(rip, from, to) ? 'twist' : share,
  };
}

/** The bevel itself changes faster over the interval than the blade follows. */
const isTooTwisted = ({ saw }: PacedRip, from: PacedMark, to: PacedMark): boolean =>
  Math.abs(to.tiltDeg - from.tiltDeg) * 1000 > saw.twistLimitDegPerM * Math.abs(to.alongMm - from.alongMm);
