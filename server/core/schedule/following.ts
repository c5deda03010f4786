/**
 * The pace of the routine `following`. The hand follows the display, which shows the tilt that is right now and what comes; a
 * person who looks ahead follows a steady change without a lag (server/core/hand/traits.ts), so what limits it is the rate of
 * the wheel against the steepest change along the exact tilt. Words play no part: confirming calls that do not fit are merged.
 *
 * Where the feed begins there is nothing to look ahead by: the speed is not known until the wood moves. The hand is then behind
 * by the crew's reaction.
 */

import { overIntervals } from './overIntervals.ts';
import { feedOver, type Limit, NO_LIMIT, type PacedRip, shownFromDeg, slowestOf, wheelDegPerS } from './pacedRip.ts';
import { neededOver } from './stretches.ts';

export function following(rip: PacedRip): readonly Limit[] {
  const rate = wheelDegPerS(rip);
  const alongMm = rip.profile.map((place) => place.alongMm);
  const turnedS = rip.profile.map(({ tiltDeg }) => tiltDeg / rate);
  const spans = neededOver(alongMm, turnedS, shownFromDeg(rip) / rate).map((sPerMm) => feedOver(1, sPerMm, 'wheel'));
  const start = atTheStart(rip, rip.profile[0]?.tiltDeg ?? 0, rip.crew.reactionS, shownFromDeg(rip));
  return overIntervals(rip, spans).map((limit, i) => (i === 0 ? slowestOf([limit, start]) : limit));
}

/**
 * The first stretch: the wheel stands at `standsAtDeg` until the hand learns, `behindS` after the feed began, that it must
 * turn, and it may be behind by `slackDeg`.
 */
export function atTheStart(rip: PacedRip, standsAtDeg: number, behindS: number, slackDeg: number): Limit {
  const rate = wheelDegPerS(rip);
  const fromMm = rip.profile[0]?.alongMm ?? 0;
  const places = rip.profile.map(({ alongMm, tiltDeg }) => ({
    wayMm: Math.abs(alongMm - fromMm),
    leftDeg: Math.abs(tiltDeg - standsAtDeg) - slackDeg,
  }));
  const limits = places.map(({ wayMm, leftDeg }, i) => {
    const before = places[i - 1];
    if (before === undefined || leftDeg <= 0) return NO_LIMIT;
    const wheelS = leftDeg / rate;
    const here = feedOver(wayMm, behindS + wheelS, wheelS > behindS ? 'wheel' : 'reaction');
    if (before.leftDeg > 0) return here;
    // Between two places: where nothing more may be left.
    const share = -before.leftDeg / (leftDeg - before.leftDeg);
    return slowestOf([here, feedOver(before.wayMm + share * (wayMm - before.wayMm), behindS, 'reaction')]);
  });
  return slowestOf(limits);
}
