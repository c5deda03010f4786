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
  return overIntervals(rip, spans).map((limit, i) =>
    i === 0 ? slowestOf([limit, atTheStart(rip, rip.crew.reactionS)]) : limit,
  );
}

/** The first stretch, of which the hand learns only `behindS` after the feed began. */
export function atTheStart(rip: PacedRip, behindS: number): Limit {
  const rate = wheelDegPerS(rip);
  const slackDeg = shownFromDeg(rip);
  const [first] = rip.profile;
  if (first === undefined) return NO_LIMIT;
  return slowestOf(
    rip.profile.map(({ alongMm, tiltDeg }) => {
      const leftDeg = Math.abs(tiltDeg - first.tiltDeg) - slackDeg;
      if (leftDeg <= 0) return NO_LIMIT;
      const wheelS = leftDeg / rate;
      return feedOver(Math.abs(alongMm - first.alongMm), behindS + wheelS, wheelS > behindS ? 'wheel' : 'reaction');
    }),
  );
}
