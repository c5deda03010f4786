import { type HandTraits, usualHand } from '../hand/traits.ts';
import type { Plan } from '../plan/plan.ts';
import type { Routine } from '../routine/routine.ts';
import { withFewerWords } from '../run/call/shorterCall.ts';
import type { RunSetup } from '../run/engine/state.ts';
import { makeSetup } from '../run/makeSetup.ts';
import { phrasesOfRun } from '../words/phrases.ts';
import { spokenLengthS } from '../words/spokenLength.ts';
import type { SimulatedChoice } from './choices.ts';
import { simulateRun } from './simulateRun.ts';
import type { Simulated, SourceFaults, Stop } from './simulation.ts';

export interface PlanSimulation {
  readonly mPerMin: number;
  readonly seed: number;
  readonly stops?: readonly Stop[];
  readonly hand?: HandTraits;
  readonly faults?: Partial<SourceFaults>;
}

type Simulator = (choice: SimulatedChoice, options: PlanSimulation) => Simulated;

/**
 * Simulates runs of a plan, with the usual hand unless told otherwise; how long words take is reckoned, not rendered.
 * `inOwnWords`: never in fewer words than the yard's own form, as by a recorded voice.
 */
export function simulatorOf(plan: Plan, { inOwnWords = false }: { readonly inOwnWords?: boolean } = {}): Simulator {
  const usual = usualHand(plan.crew, plan.saw.degreesPerTurn, plan.saw.readoutDeg, plan.saw);
  const setups = new Map<Routine, RunSetup>();
  const setupFor = (routine: Routine): RunSetup => {
    const setup = setups.get(routine) ?? reckonedSetup(plan, routine, inOwnWords);
    setups.set(routine, setup);
    return setup;
  };
  return ({ routine, source, seesTilt }, { mPerMin, seed, stops = [], hand = usual, faults = {} }) =>
    simulateRun({
      setup: setupFor(routine),
      sidingMm: plan.frame.sidingMm,
      readoutTable: plan.saw.readoutTable,
      mPerMin,
      seed,
      hand,
      source,
      ...(seesTilt === undefined ? {} : { seesTilt }),
      stops,
      faults,
    });
}

function reckonedSetup(plan: Plan, routine: Routine, inOwnWords: boolean): RunSetup {
  const { language } = plan.voice;
  const own = makeSetup(plan, 'pair', {}, routine);
  const silent = inOwnWords ? own : withFewerWords(own, plan.voice);
  const durationsMs = Object.fromEntries(
    phrasesOfRun(silent).map(({ text }) => [text, 1000 * spokenLengthS(text, language)]),
  );
  return { ...silent, durationsMs };
}
