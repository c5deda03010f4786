/**
 * The pace of the routine `following`. The hand follows the display, which shows the tilt that is right now and what comes; a
 * person who looks ahead follows a steady change without a lag (server/core/hand/traits.ts), so what limits it is the rate of
 * the wheel against the steepest change along the exact tilt. Words play no part: confirming calls that do not fit are merged.
 *
 * Where the feed begins there is nothing to look ahead by: the speed is not known until the wood moves. The hand is then behind
 * by the crew's reaction.
 */

import { rowAt } from '../rowAt.ts';
import { looseDeg, timeOfTurnS, wayOf, wayTo, wheelDegPerS } from '../saw/handwheel.ts';
import {
  evenPerDegOver,
  feedOver,
  type Limit,
  NO_LIMIT,
  type PacedRip,
  shownFromDeg,
  slowestOf,
  wheelOverProfile,
} from './crewTime.ts';
import type { PaceLimit } from './limits.ts';
import { overIntervals } from './limitsByInterval.ts';
import type { PlannedRoutine, ToPace } from './plannedRoutine.ts';
import { requiredRate } from './requiredRate.ts';

export const FOLLOWING: PlannedRoutine = {
  name: 'following',
  needsTravel: true,
  isTurnedInOneGo: false,
  isTurnedEvenly: false,
  isByDegrees: false,
  isFollowed: true,
  limits: following,
};

/** The even degrees a millimetre that must be turned over each span of the profile, but for what the readout does not show. */
export function turnedOver(rip: PacedRip): readonly number[] {
  const { deg, slackDeg } = wheelOverProfile(rip);
  return requiredRate(
    rip.profile.map(({ alongMm }) => alongMm),
    deg,
    slackDeg,
  );
}

function following({ rip, turnedDegPerMm }: ToPace): readonly Limit[] {
  const spans = turnedDegPerMm.map((degPerMm) => feedOver(1, timeOfTurnS(rip, degPerMm), 'wheel'));
  const start = atTheStart(rip, {
    standsAtDeg: rowAt(rip.profile, 0).tiltDeg,
    fromMm: 0,
    behindS: rip.crew.reactionS,
    behindBy: 'reaction',
    slackDeg: shownFromDeg(rip),
  });
  return overIntervals(rip, spans).map((limit, i) => (i === 0 ? slowestOf([limit, start]) : limit));
}

interface Start {
  /** The wheel stands there until the hand learns that it must turn: so long after the wood was so far, because of this. */
  readonly standsAtDeg: number;
  readonly fromMm: number;
  readonly behindS: number;
  readonly behindBy: PaceLimit;
  /** It may be behind by so much. */
  readonly slackDeg: number;
}

/** The first stretch, while the hand catches up with the wood. */
export function atTheStart(rip: PacedRip, { standsAtDeg, fromMm, behindS, behindBy, slackDeg }: Start): Limit {
  const rate = wheelDegPerS(rip) / evenPerDegOver(rip).most;
  const startMm = rowAt(rip.profile, 0).alongMm;
  const places = rip.profile.map(({ alongMm, tiltDeg }) => ({
    wayMm: Math.abs(alongMm - startMm) - fromMm,
    tiltDeg,
    leftDeg: Math.abs(tiltDeg - standsAtDeg) - slackDeg,
  }));
  const limits = places.map(({ wayMm, tiltDeg, leftDeg }, i) => {
    const before = places[i - 1];
    if (before === undefined || leftDeg <= 0) return NO_LIMIT;
    const wheelS = (leftDeg + (wayOf(standsAtDeg, tiltDeg) === wayTo([standsAtDeg]) ? 0 : looseDeg(rip.saw))) / rate;
    const here = feedOver(Math.max(0, wayMm), behindS + wheelS, wheelS > behindS ? 'wheel' : behindBy);
    if (before.leftDeg > 0) return here;
    // Between two places: where nothing more may be left.
    const noMoreDeg = standsAtDeg + Math.sign(tiltDeg - standsAtDeg) * slackDeg;
    const share = (noMoreDeg - before.tiltDeg) / (tiltDeg - before.tiltDeg);
    const noMoreMm = Math.max(0, before.wayMm + share * (wayMm - before.wayMm));
    return slowestOf([here, feedOver(noMoreMm, behindS, behindBy)]);
  });
  return slowestOf(limits);
}
