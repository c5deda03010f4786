import { usualHand } from '../hand/hand.ts';
import type { Plan } from '../plan.ts';
import { makeSetup } from '../run/makeSetup.ts';
import { phrasesOfRun } from '../words/phrases.ts';
import { spokenLengthS } from '../words/spokenLength.ts';
import type { SimulatedChoice } from './choices.ts';
import { type Simulated, type Simulation, simulateRun } from './simulateRun.ts';

/** A simulated run of a plan with the usual hand; how long words take is reckoned, not rendered. */
export function simulatePlan(
  plan: Plan,
  choice: SimulatedChoice,
  options: { readonly mPerMin: number; readonly seed: number; readonly stops?: NonNullable<Simulation['stops']> },
): Simulated {
  const { stops } = options;
  return simulateRun({
    setup: makeSetup(plan, 'pair', wordsMs(plan), choice.routine),
    sidingMm: plan.frame.sidingMm,
    mPerMin: options.mPerMin,
    seed: options.seed,
    hand: usualHand(plan.crew, plan.saw.degreesPerTurn, plan.saw.readoutDeg),
    source: choice.source,
    ...(choice.seesTilt === undefined ? {} : { seesTilt: choice.seesTilt }),
    ...(stops === undefined ? {} : { stops }),
  });
}

const wordsMs = (plan: Plan): Readonly<Record<string, number>> =>
  Object.fromEntries(phrasesOfRun(plan).map(({ text }) => [text, 1000 * spokenLengthS(text)]));
