/** What the plan tells of the blade: how fast the bevel may change at every mark, how sharp a line it is fed along, what cures it. */

import type { Job } from '../job.ts';
import type { Cut } from '../rip/cut.ts';
import type { PlannedMark } from '../rip/plannedMark.ts';
import type { RipPlace } from '../rip/rip.ts';
import { limitOf, type TwistCure, twistCures, withCure } from '../rip/twistCures.ts';
import { rowAt } from '../rowAt.ts';
import { farEdgeMm, smallestRadiusMm, standStillDeg } from '../saw/blade.ts';
import { type TwistSaw, twistLimitDegPerM } from '../saw/twist.ts';

export interface BladePlan {
  readonly widthMm: number;
  readonly thicknessMm: number;
  /** The smallest radius that it is fed along. */
  readonly leastRadiusMm: number;
  /** What it leaves to a tilt without feed before its body lies against the wood, where that is least: a bound, never a licence. */
  readonly standStillDeg: number;
  /** From the tilt axis to the wood farthest from it, which a tilt without feed moves most. Runs kept before this was told lack it. */
  readonly farEdgeMm?: number;
  /** From the heel, without the last mark: the worst between a mark and the one after it. */
  readonly marks: readonly MarkTwist[];
  /** Each by itself lets the blade follow all along; none where it follows as it is. */
  readonly cures: readonly TwistCure[];
}

export interface MarkTwist {
  readonly mark: number;
  readonly degPerM: number;
  readonly limitDegPerM: number;
  readonly isTooFast: boolean;
}

export function bladePlanOf(
  job: Job,
  cut: Cut,
  places: readonly RipPlace[],
  marks: readonly Pick<PlannedMark, 'mark' | 'girthMm'>[],
): BladePlan {
  // As the wood moves on, the blade turns about the line that is followed; while it stands still, about the saw's own axis.
  const saw: TwistSaw = { ...job.saw, pivotHeightMm: cut.straightAtMm };
  const { sidingMm } = job.frame;
  const cutAt = ({ sawnDeg }: RipPlace) => ({ saw, sidingMm, bevelDeg: sawnDeg });
  const shareOf = (place: RipPlace): number => place.twistDegPerM / limitOf(cutAt(place));
  const beyond = places.filter((place) => shareOf(place) > 1);
  const worst = beyond.reduce<RipPlace | undefined>(
    (a, b) => (a === undefined || shareOf(b) > shareOf(a) ? b : a),
    undefined,
  );
  const follows = (cure: TwistCure): boolean =>
    beyond.every((place) => limitOf(withCure(cutAt(place), cure)) >= place.twistDegPerM);
  return {
    widthMm: job.saw.bladeWidthMm,
    thicknessMm: job.saw.bladeThicknessMm,
    leastRadiusMm: smallestRadiusMm(job.saw),
    standStillDeg: Math.min(...places.map(({ sawnDeg }) => standStillDeg(job.saw, sidingMm, sawnDeg))),
    farEdgeMm: farEdgeMm(job.saw.pivotHeightMm, sidingMm),
    marks: worstAfterEach(places, marks, shareOf).map(({ mark, place }) => ({
      mark,
      degPerM: place.twistDegPerM,
      limitDegPerM: twistLimitDegPerM(saw, sidingMm, place.sawnDeg),
      isTooFast: shareOf(place) > 1,
    })),
    cures: worst === undefined ? [] : twistCures(cutAt(worst), worst.twistDegPerM).filter(follows),
  };
}

/** For each mark but the last the place of the greatest share from it up to the next; all from the heel. */
function worstAfterEach(
  places: readonly RipPlace[],
  marks: readonly Pick<PlannedMark, 'mark' | 'girthMm'>[],
  shareOf: (place: RipPlace) => number,
) {
  let at = 0;
  return marks.slice(0, -1).flatMap(({ mark }, i) => {
    const nextMm = i === marks.length - 2 ? Number.POSITIVE_INFINITY : rowAt(marks, i + 1).girthMm;
    let worst: RipPlace | undefined;
    for (let place = places[at]; place !== undefined && place.girthMm < nextMm; at += 1, place = places[at])
      if (worst === undefined || shareOf(place) > shareOf(worst)) worst = place;
    return worst === undefined ? [] : [{ mark, place: worst }];
  });
}
