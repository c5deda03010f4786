/**
 * What makes the saw tell the truth before a rip: the square at zero, the readout's corrections, the looseness of the wheel and the
 * places where it is turned through. Kept in the plan as figures; said by `sawTruthLines`.
 */

import { stepsOf, toReadoutStep } from '../figures/rounding.ts';
import type { Job } from '../job.ts';
import type { PlannedMark } from '../rip/plannedMark.ts';
import { lastRow, rowAt } from '../rowAt.ts';
import { evenPerDeg, looseDeg, timeOfTurnS, type Way, wayOf, wayTo } from '../saw/handwheel.ts';
import { shownDeg, trueTiltDeg } from '../saw/readout.ts';

export interface SawTruth {
  /** What the readout shows where the blade stands square by the test block. */
  readonly squareShowsDeg: number;
  /** How the first bevel of the run is come to, so that the first turn begins with the looseness taken up. */
  readonly comeToFirst: 'from less tilt' | 'from more tilt' | 'either way';
  /**
   * The first call, the figure from which it is come to (null where the saw reaches no farther that way), and the next figure that
   * is turned to. Null where nothing is turned; plans made before have none.
   */
  readonly firstBevel?: {
    readonly callDeg: number;
    readonly fromDeg: number | null;
    readonly towardDeg: number;
  } | null;
  readonly looseness: {
    readonly turns: number;
    /** What it takes of the crew's time at the wheel, each time. */
    readonly seconds: number;
    /** Marks at whose call the way of turning changes, in the order of the run. */
    readonly atMarks: readonly number[];
  } | null;
  /** Where the readout is corrected at all: the farthest that its figure is from the true tilt over this frame. */
  readonly correction: { readonly blocks: number; readonly mostDeg: number; readonly atDeg: number } | null;
  /** Tilts, rounded to whole degrees, at which test blocks tell most about this frame. */
  readonly testAtDeg: readonly number[];
}

/** `marks` in the order of the run. */
export function sawTruthOf({ saw, crew }: Pick<Job, 'saw' | 'crew'>, marks: readonly Called[]): SawTruth {
  const { readoutTable, readoutDeg, backlashTurns = 0 } = saw;
  const called = marks.map(({ callDeg }) => callDeg);
  const first = firstWay(called);
  const tilts = called.map((deg) => trueTiltDeg(deg, readoutTable));
  const least = Math.min(0, ...tilts);
  const most = Math.max(0, ...tilts);
  return {
    squareShowsDeg: toReadoutStep(shownDeg(0, readoutTable), readoutDeg),
    comeToFirst: first === 0 ? 'either way' : first > 0 ? 'from less tilt' : 'from more tilt',
    firstBevel: firstBevelOf(saw, called),
    looseness:
      backlashTurns === 0
        ? null
        : { turns: backlashTurns, seconds: timeOfTurnS({ saw, crew }, looseDeg(saw)), atMarks: reversals(marks) },
    correction: readoutTable.length === 0 ? null : correctionOver(saw, least, most),
    testAtDeg: [...new Set([0, least, (least + most) / 2, most].map((deg) => stepsOf(deg, 'nearest')))].sort(
      (a, b) => a - b,
    ),
  };
}

type Called = Pick<PlannedMark, 'mark' | 'callDeg'>;

/** Far enough for an eye on the readout, and for twice the looseness. */
const COME_FROM_DEG = 1.5;

function firstBevelOf(saw: Job['saw'], called: readonly number[]): NonNullable<SawTruth['firstBevel']> | null {
  const callDeg = rowAt(called, 0);
  const way = firstWay(called);
  if (way === 0) return null;
  const { readoutTable, readoutDeg } = saw;
  const loose = looseDeg(saw) / evenPerDeg(saw, trueTiltDeg(callDeg, readoutTable));
  const steps = Math.ceil(Math.max(COME_FROM_DEG, 2 * loose) / readoutDeg - 1e-9);
  const fromDeg = toReadoutStep(callDeg - way * steps * readoutDeg, readoutDeg);
  const [least, most] = saw.tiltDeg;
  const tiltDeg = trueTiltDeg(fromDeg, readoutTable);
  return {
    callDeg,
    fromDeg: tiltDeg < least || tiltDeg > most ? null : fromDeg,
    towardDeg: called.find((deg) => deg !== callDeg) ?? callDeg,
  };
}

function firstWay(called: readonly number[]): Way {
  const other = called.find((deg) => deg !== called[0]);
  return other === undefined ? 0 : wayOf(rowAt(called, 0), other);
}

/** The looseness at the first turn is taken up beforehand, by the way in which the first bevel is come to. */
function reversals(marks: readonly Called[]): readonly number[] {
  const called = marks.map(({ callDeg }) => callDeg);
  return marks.flatMap(({ mark, callDeg }, i) => {
    const before = called.slice(0, i);
    if (i < 2 || new Set(before).size < 2) return [];
    const way = wayOf(lastRow(before), callDeg);
    return way !== 0 && way !== wayTo(before) ? [mark] : [];
  });
}

function correctionOver({ readoutTable }: Job['saw'], fromDeg: number, toDeg: number): SawTruth['correction'] {
  // Between two blocks it changes along a straight line: its greatest is at a block or at an end.
  const places = [fromDeg, toDeg, ...readoutTable.map(([, deg]) => deg).filter((deg) => deg > fromDeg && deg < toDeg)];
  const off = (deg: number): number => shownDeg(deg, readoutTable) - deg;
  const atDeg = places.reduce((a, b) => (Math.abs(off(b)) > Math.abs(off(a)) ? b : a));
  return { blocks: readoutTable.length, mostDeg: off(atDeg) + 0, atDeg };
}
