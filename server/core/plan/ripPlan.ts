/** What the plan tells of the rip itself: how it is fed, how it is laid, where the bevel changes hand, what is left, where it ends. */
import type { Job, RipChoices } from '../job.ts';
import { type HandChange, handChanges } from '../rip/handChange.ts';
import { fenceSide, orientationOf } from '../rip/leadingEnd.ts';
import { type LineWander, lineWanderOf } from '../rip/lineWander.ts';
import type { PlannedMark } from '../rip/plannedMark.ts';
import type { Rip, RipPlace } from '../rip/rip.ts';
import { roughThicknessMm } from '../rip/stockSize.ts';
import type { Edge } from '../rip/wedges.ts';
import { ripChoices } from '../saw/sawDefaults.ts';
import { tanDeg } from '../units.ts';
import { type BladePlan, bladePlanOf } from './bladePlan.ts';

export interface RipPlan {
  readonly feeds: RipChoices['feeds'];
  /** Height above the table at which the cut runs straight along the stock: that of the tilt axis, or of the line followed. */
  readonly straightAtMm: number;
  /** Distance of the cut from the reference face there. */
  readonly lineMm: number;
  readonly line: LineWander;
  readonly thinnestEdgeMm: number;
  readonly cleaningUpMm: number;
  readonly endWasteMm: number;
  /** Thickness to get out; dressed, it is `stock.thicknessMm`. */
  readonly roughThicknessMm: number;
  readonly way: WayRound;
  /** Runs that were kept before it was reckoned lack it. */
  readonly blade: BladePlan;
  readonly handChanges: readonly HandChangePlan[];
  readonly favours: RipChoices['favours'];
  /** Girth of the place where the two wedges agree. */
  readonly registerMm: number;
  /** Where the cut is farthest from what each wedge asks; null where it is right all along. */
  readonly left: { readonly outer: LeftOver | null; readonly inner: LeftOver | null };
  /** Where each wedge is cut off, in the stock's measure, and how long it then is. */
  readonly ends: Rip['ends'];
  /** What the batten's half thickness came to at the head; only where the girths were marked on one. */
  readonly batten?: { readonly thicknessMm: number; readonly atHeadMm: number };
}

export interface WayRound {
  readonly upEdge: Edge;
  /** Side of the sawyer, who faces along the feed, on which the fence stands. */
  readonly fence: 'left' | 'right';
  /** The half that becomes the outer wedge. */
  readonly outerIs: 'at the fence' | 'away from the fence';
}

export interface HandChangePlan extends HandChange {
  /** The last mark before it, from the heel. */
  readonly afterMark: number;
  /** The saw's tilt that is asked at most on the side of the lesser hand, and whether the saw reaches it. */
  readonly tiltDeg: number;
  readonly isReached: boolean;
  /** How a length of the lesser hand is laid if it is sawn by itself. */
  readonly alone: { readonly leads: 'heel' | 'head'; readonly upEdge: Edge };
}

export interface LeftOver {
  /** Sawn less wanted, at the girth of `girthMm`. */
  readonly deg: number;
  /** The same across the siding. */
  readonly mm: number;
  readonly girthMm: number;
}

export function ripPlanOf(job: Job, rip: Rip, marks: readonly Pick<PlannedMark, 'mark' | 'girthMm'>[]): RipPlan {
  const choices = ripChoices(job);
  const { orientation, cut, places } = rip;
  return {
    feeds: choices.feeds,
    straightAtMm: cut.straightAtMm,
    lineMm: cut.lineMm,
    line: lineWanderOf(cut, job.saw.pivotHeightMm, places),
    thinnestEdgeMm: choices.thinnestEdgeMm,
    cleaningUpMm: choices.cleaningUpMm,
    endWasteMm: choices.endWasteMm,
    roughThicknessMm: roughThicknessMm(cut.thicknessMm, choices),
    way: {
      upEdge: orientation.thickEdge,
      fence: fenceSide(job.saw),
      outerIs: orientation.outerIs,
    },
    blade: bladePlanOf(job, cut, places, marks),
    handChanges: handChangesOf(
      job,
      rip,
      marks.map(({ girthMm }) => girthMm),
    ),
    favours: choices.favours,
    registerMm: rip.registerMm,
    left: {
      outer: mostLeft(job, places, ({ sawnDeg }) => sawnDeg),
      inner: mostLeft(job, places, ({ innerSawnDeg }) => innerSawnDeg),
    },
    ends: rip.ends,
  };
}

function handChangesOf(
  job: Job,
  { orientation, places }: Rip,
  markGirthsMm: readonly number[],
): readonly HandChangePlan[] {
  const tiltDeg = Math.min(...places.map((place) => place.tiltDeg));
  const alone = orientationOf(job.frame, job.saw.leans, orientation.hand === 1 ? -1 : 1);
  return handChanges(places, job.saw.readoutDeg / 2).map((change) => ({
    ...change,
    afterMark: Math.max(1, markGirthsMm.filter((girthMm) => girthMm <= change.girthMm).length),
    tiltDeg,
    isReached: tiltDeg >= job.saw.tiltDeg[0],
    alone: { leads: alone.leads, upEdge: alone.thickEdge },
  }));
}

/** What a cut at `gotDeg` leaves across the siding where `wantedDeg` was asked. */
export const leftMm = (sidingMm: number, gotDeg: number, wantedDeg: number): number =>
  sidingMm * (tanDeg(gotDeg) - tanDeg(wantedDeg)) + 0;

/** Less than a hundredth of a degree is nothing. */
const NOTHING_DEG = 0.01;

function mostLeft(job: Job, places: readonly RipPlace[], gotDeg: (place: RipPlace) => number): LeftOver | null {
  const off = (place: RipPlace): number => gotDeg(place) - place.bevelDeg;
  const worst = places.reduce((a, b) => (Math.abs(off(b)) > Math.abs(off(a)) ? b : a));
  if (Math.abs(off(worst)) < NOTHING_DEG) return null;
  const { girthMm, bevelDeg } = worst;
  return { deg: off(worst), mm: leftMm(job.frame.sidingMm, gotDeg(worst), bevelDeg), girthMm };
}
