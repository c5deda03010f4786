/**
 * The feed at which the simulated tilt leaves the tolerance: where being late alone makes it stray by more than half a step of
 * the readout, so that the readout no longer shows what it should. What is no lateness of the pace is taken out:
 *
 * - Routines that turn from mark to mark are judged at their marks, against the figure that was called, not the exact bevel:
 *   the rounding of the call is left out.
 * - `following` is judged everywhere, against the exact bevel. Its first bevel is called exactly, so that no rounding stays in
 *   the wheel at the start.
 * - `degree by degree` is judged everywhere; half of the whole degree that it holds, where halves do not fit, is not lateness.
 *
 * Every call is in the words that the limit was reckoned with. The hand is the usual one without chance or looseness, and the sources make no errors. Where calls are led each is timed to
 * be turned to just when its mark is there, by a wheel that takes up its speed at once, so that what is late at half of the limit
 * or less already is not the pace's.
 */
import { usualHand, withoutChance } from '../../../server/core/hand/traits.ts';
import type { Plan } from '../../../server/core/plan/plan.ts';
import { trueTiltDeg } from '../../../server/core/saw/readout.ts';
import type { SimulatedChoice } from '../../../server/core/simulate/choices.ts';
import { simulatorOf } from '../../../server/core/simulate/simulatePlan.ts';
import { NO_FAULTS, type Simulated } from '../../../server/core/simulate/simulation.ts';

const FROM = 0.5;
const TO = 2;
const BY = 1.02;
const HAIR = 1.005;
/** Shares of the limit at which the pace makes nothing late. */
const SLOW = [0.2, 0.3, 0.4, 0.5];
const HALF_A_DEGREE = 0.5;

/**
 * As a share of the limit, from 0.5 to 2; the former where it is out of tolerance from there. One single feed at which two things
 * fall together by chance is passed over: a hair faster it must be out of tolerance too.
 */
export function leavesAtShare(plan: Plan, choice: SimulatedChoice): number {
  const limit = limitOf(plan, choice);
  const latenessDeg = latenessOf(plan, choice);
  const always = isLedMarkByMark(choice) ? SLOW.map((share) => latenessDeg(share * limit)) : [0];
  const allowedDeg = plan.saw.readoutDeg / 2 + Math.max(...always);
  const isOut = (share: number): boolean => latenessDeg(share * limit) > allowedDeg;
  let share = FROM;
  while (share < TO && !(isOut(share) && isOut(share * HAIR))) share *= BY;
  // Somewhere in the last step.
  return share > FROM ? share / Math.sqrt(BY) : share;
}

const isLedMarkByMark = ({ routine, source }: SimulatedChoice): boolean =>
  routine === 'mark by mark' && source !== 'press';

/** The limit of what is judged. */
function limitOf({ pace }: Plan, choice: SimulatedChoice): number {
  const { routine } = choice;
  const intervals = (pace.routines?.[routine].intervals ?? []).map(
    ({ limitMPerMin }) => limitMPerMin ?? Number.POSITIVE_INFINITY,
  );
  const limit = Math.min(...intervals);
  if (!Number.isFinite(limit)) throw new Error(`nothing limits ${routine}`);
  return limit;
}

/** What being late adds at the worst place at a feed, degrees. */
function latenessOf(plan: Plan, choice: SimulatedChoice): (mPerMin: number) => number {
  const { routine } = choice;
  const simulate = simulatorOf(routine === 'following' ? calledExactly(plan) : plan, { inOwnWords: true });
  const hand = withoutChance(usualHand(plan.crew, plan.saw.degreesPerTurn, plan.saw.readoutDeg));
  return (mPerMin) => {
    const run = simulate(choice, { mPerMin, seed: 1, hand, faults: NO_FAULTS });
    if (routine === 'following') return run.worstDeg;
    return routine === 'degree by degree' ? run.worstDeg - HALF_A_DEGREE : worstAtMarks(plan, run);
  };
}

const calledExactly = (plan: Plan): Plan => ({
  ...plan,
  marks: plan.marks.map((mark) => ({ ...mark, callDeg: plan.hand * mark.sawnDeg })),
});

function worstAtMarks(plan: Plan, { arrivals }: Simulated): number {
  const offDeg = new Map(
    plan.marks.map(({ mark, sawnDeg, callDeg }) => [
      mark,
      trueTiltDeg(callDeg, plan.saw.readoutTable) - plan.hand * sawnDeg,
    ]),
  );
  return arrivals.reduce(
    (worst, { mark, errorDeg }) =>
      errorDeg === null ? worst : Math.max(worst, Math.abs(errorDeg - (offDeg.get(mark) ?? 0))),
    0,
  );
}
