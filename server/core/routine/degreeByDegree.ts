/**
 * The pace of the routine `degree by degree`. Each half degree is called as it comes due, and whole degrees alone where halves
 * do not fit: the voice must manage the whole degrees at the steepest place, one after the other with a pause between, and the
 * wheel a turn of one degree after another, each from a stand.
 */

import { rowAt } from '../rowAt.ts';
import { timeOfTurnS } from '../saw/handwheel.ts';
import {
  evenPerDegOver,
  feedOver,
  type Limit,
  PAUSE_S,
  type PacedRip,
  START_UP_S,
  shownFromDeg,
  slowestOf,
} from './crewTime.ts';
import { degreesAtTheStart } from './firstDegrees.ts';
import { overIntervals } from './limitsByInterval.ts';
import type { PlannedRoutine, ToPace } from './plannedRoutine.ts';
import { requiredRate } from './requiredRate.ts';

export const DEGREE_BY_DEGREE: PlannedRoutine = {
  name: 'degree by degree',
  needsTravel: true,
  isTurnedInOneGo: false,
  isTurnedEvenly: false,
  isByDegrees: true,
  isFollowed: false,
  limits: degreeByDegree,
};

function degreeByDegree({ rip, turnedDegPerMm }: ToPace): readonly Limit[] {
  const { profile } = rip;
  const alongMm = profile.map((place) => place.alongMm);
  // A turn of one degree of tilt; what of its looseness a reversal costs is in what is turned.
  const turnS = timeOfTurnS(rip, 1) + START_UP_S / evenPerDegOver(rip).least;
  const spokenUpToS = spokenUpTo(rip);
  const spokenS = profile.map(({ tiltDeg }) => spokenUpToS(tiltDeg));
  const callS = meanCallS(rip, spokenUpToS);
  const byWords = requiredRate(alongMm, spokenS, shownFromDeg(rip) * callS);
  const spans = byWords.map((sPerMm, i) =>
    slowestOf([feedOver(1, sPerMm, 'words'), feedOver(1, rowAt(turnedDegPerMm, i) * turnS, 'wheel')]),
  );
  const start = degreesAtTheStart(rip);
  return overIntervals(rip, spans).map((limit, i) => (i === 0 ? slowestOf([limit, start]) : limit));
}

/** Seconds in which the whole degrees from zero to a tilt are said; between two of them in proportion. Each is reckoned once. */
function spokenUpTo(rip: PacedRip): (tiltDeg: number) => number {
  const upToS = new Map<number, number>([[0, 0]]);
  const upToWholeS = (deg: number): number => {
    const known = upToS.get(deg);
    if (known !== undefined) return known;
    const sumS = upToWholeS(deg - Math.sign(deg)) + Math.sign(deg) * (rip.figureWordsS(deg) + PAUSE_S);
    upToS.set(deg, sumS);
    return sumS;
  };
  return (tiltDeg) => {
    const below = Math.floor(tiltDeg);
    const belowS = upToWholeS(below);
    return tiltDeg === below ? belowS : belowS + (tiltDeg - below) * (upToWholeS(below + 1) - belowS);
  };
}

/** How long a whole degree and the pause after it last on this frame, in the mean. */
function meanCallS({ profile }: PacedRip, spokenUpToS: (tiltDeg: number) => number): number {
  const tiltsDeg = profile.map(({ tiltDeg }) => tiltDeg);
  const from = Math.floor(tiltsDeg.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY));
  const to = from + Math.max(1, Math.ceil(tiltsDeg.reduce((a, b) => Math.max(a, b), from) - from));
  return (spokenUpToS(to) - spokenUpToS(from)) / (to - from);
}
