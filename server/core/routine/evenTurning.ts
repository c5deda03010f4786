/**
 * The pace of the routine `even turning`. The next bevel is called before the mark in front of it, and turned to evenly from
 * that mark to its own: the wheel has the whole interval, and must manage the change within it, and over every run of
 * intervals.
 *
 * A call is never said before the interval in front of its own has begun, and never before the call in front of it is over; it
 * must be understood at the mark where its turn begins. A turn that begins late ends late: by so little as the readout does not
 * show it may. So every run of calls, one after the other, must have the time from its first one's earliest moment.
 *
 * The first turn alone is as in `mark by mark`: its bevel cannot be called before the wood moves, or the hand would leave the
 * first one; what is late is then turned to as fast as the wheel goes.
 */
import { lastRow, rowAt } from '../rowAt.ts';
import { timeOfTurnS, turnedDeg, wayTo, wheelDegPerS } from '../saw/handwheel.ts';
import {
  crewTime,
  evenPerDegOver,
  feedOver,
  greatestShare,
  type Limit,
  NO_LIMIT,
  PAUSE_S,
  type PacedRip,
  START_UP_S,
  shownFromDeg,
  slowestOf,
  wheelAtMarks,
} from './crewTime.ts';
import type { PlannedRoutine } from './plannedRoutine.ts';
import { requiredRate } from './requiredRate.ts';

/** The wood comes up to its feed in 0.3 s (from memory, as in simulate/feedModel.ts): from its start it is so much later at a mark. */
const START_OF_FEED_S = 0.15;

export const EVEN_TURNING: PlannedRoutine = {
  name: 'even turning',
  needsTravel: true,
  isTurnedInOneGo: false,
  isTurnedEvenly: true,
  isByDegrees: false,
  isFollowed: false,
  limits: ({ rip }) => evenTurning(rip),
};

function evenTurning(rip: PacedRip): readonly Limit[] {
  const { marks } = rip;
  const rate = wheelDegPerS(rip);
  const wheelSPerMm = requiredRate(
    marks.map(({ alongMm }) => alongMm),
    wheelAtMarks(rip).map((deg) => deg / rate),
    (shownFromDeg(rip) * evenPerDegOver(rip).least) / rate,
  );
  const calls = callsInTime(rip);
  return wheelSPerMm.map((sPerMm, i) =>
    slowestOf([...(i === 0 ? [firstTurn(rip)] : []), feedOver(1, sPerMm, 'wheel'), calls[i] ?? NO_LIMIT]),
  );
}

/** Called when the wood begins to move. */
function firstTurn(rip: PacedRip): Limit {
  const [from, to] = rip.marks;
  if (from === undefined || to === undefined) return NO_LIMIT;
  const shownFrom = shownFromDeg(rip) * evenPerDegOver(rip).least;
  const turned = turnedDeg(rip.saw, from.callDeg, to.callDeg, wayTo([from.callDeg]));
  const leftDeg = Math.max(0, turned - shownFrom);
  const turnS = timeOfTurnS(rip, leftDeg);
  // Of taking up speed and giving it up again only the one comes before the readout shows the figure.
  const wheelS = turnS + Math.min(turnS, START_UP_S / 2);
  const { reactionS } = rip.crew;
  const most = greatestShare([
    ['words', to.wordsS],
    ['reaction', reactionS],
    ['wheel', wheelS],
  ]);
  return feedOver(lengthOf(rip.marks, 0), crewTime(to.wordsS, reactionS, wheelS) - START_OF_FEED_S, most);
}

/**
 * For every interval the slowest of the runs of calls that are said over it. In plain numbers, for their count grows with the
 * square of the marks.
 */
function callsInTime(rip: PacedRip): readonly Limit[] {
  const { marks, crew } = rip;
  const along = Float64Array.from(marks, ({ alongMm }) => alongMm);
  const saidS = new Float64Array(marks.length + 1);
  marks.forEach(({ wordsS }, i) => {
    saidS[i + 1] = rowAt(saidS, i) + wordsS + PAUSE_S;
  });
  const sPerMm = new Float64Array(Math.max(0, marks.length - 1));
  for (let last = 2; last < marks.length; last += 1) {
    const byMm = rowAt(along, last - 1) + signOf(marks) * mayBeLateMm(rip, last - 1);
    const neededS = rowAt(saidS, last + 1) + crew.reactionS - PAUSE_S;
    let worst = 0;
    // The run from call `first` on lies over the intervals from first - 2 to the one before the last call's turn.
    for (let first = 1; first <= last + 1; first += 1) {
      if (first <= last) {
        const runS = neededS - rowAt(saidS, first) - (first <= 2 ? START_OF_FEED_S : 0);
        worst = Math.max(worst, runS / Math.abs(byMm - rowAt(along, Math.max(0, first - 2))));
      }
      if (first >= 2 && worst > rowAt(sPerMm, first - 2)) sPerMm[first - 2] = worst;
    }
  }
  return Array.from(sPerMm, (s) => feedOver(1, s, 'words'));
}

const signOf = (marks: PacedRip['marks']): 1 | -1 => (lastRow(marks).alongMm < rowAt(marks, 0).alongMm ? -1 : 1);

const lengthOf = (marks: PacedRip['marks'], interval: number): number =>
  Math.abs(rowAt(marks, interval + 1).alongMm - rowAt(marks, interval).alongMm);

/** How far into an interval its turn may begin without being seen to be late at the end. */
function mayBeLateMm(rip: PacedRip, interval: number): number {
  const changeDeg = Math.abs(rowAt(rip.marks, interval + 1).callDeg - rowAt(rip.marks, interval).callDeg);
  const share = changeDeg > 0 ? Math.min(1, shownFromDeg(rip) / changeDeg) : 1;
  return share * lengthOf(rip.marks, interval);
}
