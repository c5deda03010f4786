/**
 * The pace of the routine `mark by mark`. The call for a mark is spoken when the mark before it reaches the blade. Then follow,
 * one after the other, the words, the tilt hand's reaction and the turning of the wheel in one go; the feed that leaves just
 * that time over the interval is its limit.
 *
 * The wheel must also turn no faster than the blade can follow in its kerf: the turn takes at least as much way as the change
 * of bevel needs at the twist limit, and the words and the reaction have only the rest of the interval. The slower the feed, the
 * slower that turn.
 */
import type { Pace } from '../plan.ts';
import {
  greatestShare,
  MM_PER_S_TO_M_PER_MIN,
  type PacedMark,
  type PacedRip,
  shownFromDeg,
  wheelDegPerS,
} from './pacedRip.ts';

/**
 * Words and reaction always have this share of an interval: where the turn would leave them less, it takes too much way at any
 * feed, and another routine or other marks are called for.
 */
export const LEAST_SHARE = 0.1;

export function markByMark(rip: PacedRip): Pace['intervals'] {
  return rip.marks.slice(1).map((to, i) => intervalOf(rip, rip.marks[i] ?? to, to));
}

function intervalOf(rip: PacedRip, from: PacedMark, to: PacedMark): Pace['intervals'][number] {
  const { crew, saw } = rip;
  const lengthMm = Math.abs(to.alongMm - from.alongMm);
  const changeDeg = Math.abs(to.callDeg - from.callDeg);
  const wheelS = changeDeg / wheelDegPerS(rip);
  const heardS = to.wordsS + crew.reactionS;
  const inTime = (lengthMm * MM_PER_S_TO_M_PER_MIN) / (heardS + wheelS);
  const leftMm = Math.max(LEAST_SHARE * lengthMm, lengthMm - gentleTurnMm(rip, changeDeg));
  const gently = (leftMm * MM_PER_S_TO_M_PER_MIN) / heardS;
  const saws = saw.feedMPerMin ?? Number.POSITIVE_INFINITY;
  const limitMPerMin = Math.min(inTime, gently, saws);
  const limitedBy =
    saws === limitMPerMin
      ? 'saw'
      : gently < inTime
        ? 'twist'
        : greatestShare([
            ['words', to.wordsS],
            ['reaction', crew.reactionS],
            ['wheel', wheelS],
          ]);
  return {
    fromMark: from.mark,
    toMark: to.mark,
    lengthMm,
    wordsS: to.wordsS,
    reactionS: crew.reactionS,
    wheelS,
    limitMPerMin,
    limitedBy,
  };
}

/** The way over which a change of bevel is turned at the twist limit, until the readout shows it. */
const gentleTurnMm = (rip: PacedRip, changeDeg: number): number =>
  (Math.max(0, changeDeg - shownFromDeg(rip)) / rip.saw.twistLimitDegPerM) * 1000;
