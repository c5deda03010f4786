/**
 * The pace of the routine `even turning`. The next bevel is called before the mark in front of it, and turned to evenly from
 * that mark to its own: the wheel has the whole interval, and must manage the change within it, and over every run of
 * intervals. The words of the call after it are said meanwhile, and must be understood before the interval ends.
 */
import { feedOver, type Limit, PAUSE_S, type PacedRip, shownFromDeg, slowestOf, wheelDegPerS } from './pacedRip.ts';
import { neededOver } from './stretches.ts';

export function evenTurning(rip: PacedRip): readonly Limit[] {
  const { marks, crew } = rip;
  const rate = wheelDegPerS(rip);
  const alongMm = marks.map((mark) => mark.alongMm);
  const turnedS = marks.map(({ callDeg }) => callDeg / rate);
  const wheelSPerMm = neededOver(alongMm, turnedS, shownFromDeg(rip) / rate);
  return wheelSPerMm.map((sPerMm, i) => {
    const lengthMm = Math.abs((alongMm[i + 1] ?? 0) - (alongMm[i] ?? 0));
    const next = marks[i + 2];
    const heardS = next === undefined ? 0 : next.wordsS + PAUSE_S + crew.reactionS;
    return slowestOf([feedOver(1, sPerMm, 'wheel'), feedOver(lengthMm, heardS, 'words')]);
  });
}
