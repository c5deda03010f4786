import { draws } from '../../server/core/numeric/draws.ts';
import type { Plan } from '../../server/core/plan/plan.ts';
import { CHOICES, SHOP_ROUTINE, type SimulatedChoice } from '../../server/core/simulate/choices.ts';
import type { SourceFaults, Stop } from '../../server/core/simulate/simulation.ts';
import { demoPlan } from '../kit/demoPlan.ts';
import { randomPlans } from './randomPlans.ts';
import { randomStops } from './randomStops.ts';

const RANDOM_FRAMES = 9;
/** The draws of what a run is made of are not those that happen in it, which have its number for their seed. */
const OF_RUNS = 1_000_000;

export interface NthRun {
  readonly plan: number;
  readonly routine: string;
  readonly choice: SimulatedChoice;
  readonly mPerMin: number;
  /** Of the plan's pace limit. */
  readonly share: number;
  readonly seed: number;
  readonly stops: readonly Stop[];
  readonly faults: Partial<SourceFaults>;
}

/** A wheel that no marks correct is run along a rule first: then it slips by less (assumption). */
const SLIP_ALONE = 0.002;

/** The plans that the ten thousand runs are made on. */
export const plansOfRuns = async (): Promise<readonly Plan[]> => [await demoPlan(), ...randomPlans(RANDOM_FRAMES)];

/** One of the ten thousand runs: everything about it follows from its number. Half of them are on the first plan, the demo. */
export function nthRun(run: number, plans: readonly Plan[]): NthRun {
  const draw = draws(OF_RUNS + run);
  const index = run % 2 === 0 ? 0 : 1 + (Math.floor(run / 2) % (plans.length - 1));
  const choices = Object.entries(CHOICES).filter(([name]) => name !== SHOP_ROUTINE);
  const [routine, choice] = choices[Math.floor(choices.length * draw.even())] ?? [];
  const plan = plans[index];
  if (plan === undefined || routine === undefined || choice === undefined) throw new Error('nothing to simulate');
  const share = 0.25 + 1.25 * draw.even();
  return {
    plan: index,
    routine,
    choice,
    mPerMin: share * plan.pace.limitMPerMin,
    share,
    seed: run,
    stops: randomStops(draw, plan.stock.lengthMm),
    faults: choice.source === 'travel' ? { slip: SLIP_ALONE } : {},
  };
}
