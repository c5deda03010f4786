/**
 * The pace of the routine `even turning`. The next bevel is called before the mark in front of it, and turned to evenly from
 * that mark to its own: the wheel has the whole interval, and must manage the change within it, and over every run of
 * intervals. Meanwhile the call after it is said, never before its interval has begun, and must be understood by the mark where
 * its turn begins. A turn that begins late is behind at its end by as much: so little as the readout does not show may be late.
 *
 * The first interval alone is as in `mark by mark`: its bevel cannot be called before the wood moves, or the hand would leave
 * the first one; what is late is then turned to as fast as the wheel goes.
 */
import {
  feedOver,
  greatestShare,
  type Limit,
  NO_LIMIT,
  PAUSE_S,
  type PacedRip,
  shownFromDeg,
  slowestOf,
  wheelDegPerS,
} from './pacedRip.ts';
import { neededOver } from './stretches.ts';

export function evenTurning(rip: PacedRip): readonly Limit[] {
  const { marks } = rip;
  const rate = wheelDegPerS(rip);
  const wheelSPerMm = neededOver(
    marks.map(({ alongMm }) => alongMm),
    marks.map(({ callDeg }) => callDeg / rate),
    shownFromDeg(rip) / rate,
  );
  return wheelSPerMm.map((sPerMm, i) =>
    slowestOf([...(i === 0 ? [firstTurn(rip)] : []), feedOver(1, sPerMm, 'wheel'), nextCall(rip, i)]),
  );
}

/** Called when the wood begins to move. */
function firstTurn(rip: PacedRip): Limit {
  const [from, to] = rip.marks;
  if (from === undefined || to === undefined) return NO_LIMIT;
  const wheelS = Math.max(0, Math.abs(to.callDeg - from.callDeg) - shownFromDeg(rip)) / wheelDegPerS(rip);
  const { reactionS } = rip.crew;
  const most = greatestShare([
    ['words', to.wordsS],
    ['reaction', reactionS],
    ['wheel', wheelS],
  ]);
  return feedOver(lengthOf(rip.marks, 0), to.wordsS + reactionS + wheelS, most);
}

/** The call for the turn after this interval is said, and understood, within it. */
function nextCall(rip: PacedRip, interval: number): Limit {
  const next = rip.marks[interval + 2];
  if (next === undefined) return NO_LIMIT;
  const lengthMm = lengthOf(rip.marks, interval);
  // In the first interval its own call comes before.
  const waitsS = interval === 0 ? (rip.marks[1]?.wordsS ?? 0) + PAUSE_S : 0;
  return slowestOf([
    feedOver(lengthMm + mayBeLateMm(rip, interval + 1), waitsS + next.wordsS + rip.crew.reactionS, 'words'),
    feedOver(lengthMm, next.wordsS + PAUSE_S, 'words'),
  ]);
}

const lengthOf = (marks: PacedRip['marks'], interval: number): number =>
  Math.abs((marks[interval + 1]?.alongMm ?? 0) - (marks[interval]?.alongMm ?? 0));

/** How far into an interval its turn may begin without being seen to be late at the end. */
function mayBeLateMm(rip: PacedRip, interval: number): number {
  const changeDeg = Math.abs((rip.marks[interval + 1]?.callDeg ?? 0) - (rip.marks[interval]?.callDeg ?? 0));
  const share = changeDeg > 0 ? Math.min(1, shownFromDeg(rip) / changeDeg) : 1;
  return share * lengthOf(rip.marks, interval);
}
