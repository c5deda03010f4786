/**
 * The routine `degree by degree`: each half degree is called as it comes due. The hand holds a figure while the tilt that is
 * wanted is nearer to it than to the next one, so that the error stays within half a step and a turn is short.
 *
 * A figure is due where the tilt wanted is half a step short of it; the turn to it is centred there: its words are over a
 * reaction and half the turn before. They may be over as late as half the way on to where the next figure is due. A figure
 * that cannot be is left out for the next one; and a half is left out for the whole degree after it where only one of the
 * two can be said.
 */

import { PAUSE_MS } from '../../routine/crewTime.ts';
import type { DegreeStep } from '../../routine/routine.ts';
import { rowAt } from '../../rowAt.ts';
import { evenPerDeg, timeOfTurnS, type Way, wayOf } from '../../saw/handwheel.ts';
import type { Step } from '../engine/effects.ts';
import type { Reckoning, RunState } from '../engine/state.ts';
import { isMoving } from '../place/moving.ts';
import {
  arrivalMs,
  crewedWheel,
  hadTimeToTell,
  heardOutMs,
  latestMs,
  reactionMs,
  wayToStation,
  wheelMs,
  wordsMs,
} from './callTiming.ts';
import { routineNow } from './routineNow.ts';
import { say } from './say.ts';

interface StepDue {
  readonly index: number;
  readonly atMs: number;
  /** More is left out than halves between whole degrees. */
  readonly isTooFast: boolean;
}
const HALF_DEG = 0.5;
/** Halves between whole degrees may be left out by rule. */
const LEFT_OUT_BY_RULE = 1;

export const isByDegrees = (state: RunState): boolean => routineNow(state).isByDegrees;

/** The next figure and when its call should start, not before `atMs`. Null after the last one, or while the wood stands. */
export function stepDue(state: RunState, atMs: number): StepDue | null {
  const { reckoning } = state;
  if (reckoning === null) return null;
  const steps = state.setup.steps ?? [];
  const first = nextStep(state, steps, reckoning.positionMm);
  if (first >= steps.length) return null;
  if (reckoning.speedMmPerMs === null && hadTimeToTell(reckoning)) {
    const isDue = rowAt(steps, first).positionMm <= reckoning.positionMm;
    return isDue ? { index: first, atMs, isTooFast: false } : null;
  }
  if (!isMoving(reckoning)) return null;
  const fromMs = Math.max(atMs, heardOutMs(state) ?? atMs);
  const held = heldDeg(state);
  let leftOut = 0;
  for (let index = state.step < 0 ? first : state.step + 1; index < steps.length; index += 1) {
    // Where a figure between was left out, the one that is held comes again and need not be said.
    const isHeld = steps[index]?.callDeg === held;
    const cannotBe = index < first || isHeld || isCrowded(state, reckoning, index);
    const startMs = cannotBe ? null : startInTime(state, reckoning, index, fromMs);
    if (startMs !== null) return { index, atMs: startMs, isTooFast: leftOut > LEFT_OUT_BY_RULE };
    if (!isHeld) leftOut += 1;
  }
  return null;
}

/** After the figure that is held: the first that is still right half the way on to the one after it. */
function nextStep(state: RunState, steps: readonly DegreeStep[], positionMm: number): number {
  let index = state.step + 1;
  while (index < steps.length && rowAt(steps, index).deadlineMm <= positionMm) index += 1;
  return index;
}

/** When its call can start so as to be over before it is too late; null where it cannot. */
function startInTime(state: RunState, reckoning: Reckoning, index: number, fromMs: number): number | null {
  const step = state.setup.steps?.[index];
  if (step === undefined) return null;
  const words = wordsMs(state, step.text);
  const held = heldDeg(state);
  const turn = wheelMs(state, held, step.callDeg, wayOf(held, step.callDeg));
  // The tilt stands until the looseness is taken up: the turn itself is centred.
  const loose = wheelMs(state, held, step.callDeg, wayToHeld(state)) - turn;
  const wantedMs = arrivalMs(reckoning, step.positionMm) - words - reactionMs(state) - loose - turn / 2;
  const startMs = Math.max(wantedMs, fromMs);
  return startMs + words <= latestMs(reckoning, step.deadlineMm) ? startMs : null;
}

/** A half for which, at the speed of now, there is no time between the whole degrees before and after it. */
function isCrowded(state: RunState, { speedMmPerMs }: Reckoning, index: number): boolean {
  const steps = state.setup.steps ?? [];
  const half = steps[index];
  if (half === undefined || half.isWhole || speedMmPerMs === null) return false;
  const [before, after] = [steps[index - 1], steps[index + 1]];
  if (after !== undefined && spareMs(state, half, after, speedMmPerMs) < 0) return true;
  return before !== undefined && spareMs(state, before, half, speedMmPerMs) < 0;
}

/** What is left of the way from one figure to the next when the first is said. */
const spareMs = (state: RunState, from: DegreeStep, to: DegreeStep, mmPerMs: number): number =>
  (to.positionMm - from.positionMm) / mmPerMs - wordsMs(state, from.text) - PAUSE_MS;

/** The figure being turned to or held. */
export const heldDeg = ({ setup, step, turningTo }: RunState): number =>
  setup.steps?.[step]?.callDeg ?? setup.stations[Math.max(0, turningTo)]?.callDeg ?? 0;

/** The way of the turn that led to it. */
function wayToHeld(state: RunState): Way {
  const { setup, step, turningTo } = state;
  const figure = setup.steps?.[step]?.callDeg;
  if (figure === undefined) return wayToStation(state, Math.max(0, turningTo));
  return wayOf(setup.steps?.[step - 1]?.callDeg ?? setup.stations[0]?.callDeg ?? 0, figure);
}

/** The figure to be turned to where the wood is now, standing or moving: index of its step, -1 while that is still the first bevel. */
export function stepInForce(state: RunState): number {
  const { setup, reckoning } = state;
  if (reckoning === null) return -1;
  const mmPerMs = reckoning.speedMmPerMs ?? reckoning.track.now?.cruiseMmPerMs ?? 0;
  // A hand that hears it now is centred on its turn, of one step, so much farther on.
  const onMm = mmPerMs * (reactionMs(state) + halfDegreeMs(state) / 2);
  return (setup.steps ?? []).findLastIndex((step) => step.positionMm <= reckoning.positionMm + onMm);
}

/** To turn half a degree from where the wheel stands, its looseness taken up. */
const halfDegreeMs = (state: RunState): number =>
  timeOfTurnS(crewedWheel(state.setup), HALF_DEG * evenPerDeg(state.setup, heldDeg(state))) * 1000;

/** Calls the figure of a step: from now on it is what is being turned to. */
export function callStep(state: RunState, atMs: number, index: number, cause?: string): Step {
  const step = state.setup.steps?.[index];
  if (step === undefined) throw new Error(`no step ${index} among ${state.setup.steps?.length ?? 0}`);
  const [next, effects] = say(state, atMs, {
    to: 'tilt hand',
    text: step.text,
    deg: step.callDeg,
    startsAtMs: atMs,
    ...(cause === undefined ? {} : { cause }),
  });
  // Behind its deadline, as after a stop, it is still right until the next one is.
  const isBehind = (state.reckoning?.positionMm ?? 0) >= step.deadlineMm;
  const stepByMm = isBehind ? (state.setup.steps?.[index + 1]?.positionMm ?? null) : step.deadlineMm;
  return [{ ...next, step: index, stepByMm }, effects];
}
