/**
 * The first figures of the routine `degree by degree`. The first of them cannot be called before the wood moves, and where the
 * bevel changes at once it may be late already. By the rule of the run (degreeCalls.ts) a figure's words must be over half the
 * way on to where the next one is due, or it is torn off there and the next one said in its place.
 */

import { rowAt } from '../rowAt.ts';
import { feedOver, type Limit, NO_LIMIT, PAUSE_S, type PacedRip, shownFromDeg, slowestOf } from './crewTime.ts';
import { atTheStart } from './following.ts';

/** As in the run. */
const FINEST_DEG = 0.5;
/** A whole degree is held until the bevel is nearer to the next one. */
const HALF_A_DEGREE = 0.5;
/** So many figures are looked at, each torn off for the next one. */
const LOOKED_AT = 4;

/**
 * A count of travel has told the speed, and the first figure is begun, so much later than wood is late that comes up to its feed:
 * 0.2 to 0.25 s after the start, less 0.15 s (as the run does, in simulation).
 */
const TOLD_S = 0.08;

interface Figure {
  readonly deg: number;
  /** The way from the start to where it becomes the right one. */
  readonly dueMm: number;
}

/** The feed at which the hand falls behind before it has caught up with the wood. */
export function degreesAtTheStart(rip: PacedRip): Limit {
  const figures = firstFigures(rip);
  const [figure, next] = figures;
  const said = saidFrom(rip, figures, 0);
  if (figure === undefined || next === undefined) return said;
  // The figure after the first one waits for it.
  const wordsS = TOLD_S + rip.figureWordsS(figure.deg) + PAUSE_S + rip.figureWordsS(next.deg);
  return slowestOf([said, understood(beyond(rip, figure.dueMm), figure.deg, -figure.dueMm, wordsS)]);
}

/** Without the profile before a place so far from the start. */
function beyond(rip: PacedRip, wayMm: number): PacedRip {
  const startMm = rowAt(rip.profile, 0).alongMm;
  const wayOf = (place: { readonly alongMm: number }): number => Math.abs(place.alongMm - startMm);
  const index = rip.profile.findIndex((place) => wayOf(place) > wayMm);
  const [from, to] = [rip.profile[index - 1], rip.profile[index]];
  if (from === undefined || to === undefined) return rip;
  const share = (wayMm - wayOf(from)) / (wayOf(to) - wayOf(from));
  const here = {
    alongMm: from.alongMm + share * (to.alongMm - from.alongMm),
    tiltDeg: from.tiltDeg + share * (to.tiltDeg - from.tiltDeg),
  };
  return { ...rip, profile: [here, ...rip.profile.slice(index)] };
}

/** These figures are still to be said, the first of them from this place on, while the first bevel is held. */
function saidFrom(rip: PacedRip, [figure, ...later]: readonly Figure[], fromMm: number): Limit {
  if (figure === undefined) return NO_LIMIT;
  const wordsS = rip.figureWordsS(figure.deg) + (fromMm > 0 ? 0 : TOLD_S);
  const isUnderstood = understood(rip, rowAt(rip.marks, 0).callDeg, fromMm, wordsS);
  const [next] = later;
  if (next === undefined) return isUnderstood;
  const deadlineMm = (figure.dueMm + next.dueMm) / 2;
  const isOver = feedOver(deadlineMm - fromMm, wordsS, 'words');
  return slowestOf([isUnderstood, fasterOf(isOver, saidFrom(rip, later, deadlineMm))]);
}

/** Held at a figure until words that begin at a place are understood. */
const understood = (rip: PacedRip, standsAtDeg: number, fromMm: number, wordsS: number): Limit =>
  atTheStart(rip, {
    standsAtDeg,
    fromMm,
    behindS: wordsS + rip.crew.reactionS,
    behindBy: wordsS > rip.crew.reactionS ? 'words' : 'reaction',
    slackDeg: HALF_A_DEGREE + shownFromDeg(rip),
  });

const fasterOf = (a: Limit, b: Limit): Limit => (slowestOf([a, b]) === a ? b : a);

/** Along the tilt from the first bevel's figure on, one step after the other. */
function firstFigures(rip: PacedRip): readonly Figure[] {
  const stepDeg = Math.max(FINEST_DEG, rip.saw.readoutDeg);
  const startMm = rowAt(rip.profile, 0).alongMm;
  const figures: Figure[] = [];
  let deg = Math.round(rowAt(rip.marks, 0).callDeg / stepDeg) * stepDeg;
  let before = rip.profile[0];
  for (const place of rip.profile) {
    while (before !== undefined && Math.abs(place.tiltDeg - deg) > stepDeg / 2) {
      if (figures.length === LOOKED_AT) return figures;
      const way = Math.sign(place.tiltDeg - deg);
      const share = (deg + (way * stepDeg) / 2 - before.tiltDeg) / (place.tiltDeg - before.tiltDeg);
      const dueMm = Math.abs(before.alongMm + Math.max(0, share || 0) * (place.alongMm - before.alongMm) - startMm);
      deg += way * stepDeg;
      figures.push({ deg, dueMm });
    }
    before = place;
  }
  return figures;
}
