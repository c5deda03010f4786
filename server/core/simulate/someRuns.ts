import type { Plan } from '../plan/plan.ts';
import type { SimulatedChoice } from './choices.ts';
import { figuresOf, type RunFigures } from './outcomeFigures.ts';
import { simulatorOf } from './simulatePlan.ts';

/** Runs of one routine with one seed after the other. */
export interface SomeRuns {
  readonly choice: SimulatedChoice;
  readonly mPerMin: number;
  readonly fromSeed: number;
  readonly runs: number;
}

/** Simulates runs of a plan; of each only its figures are kept. */
export function someRunsOf(plan: Plan): (some: SomeRuns) => readonly RunFigures[] {
  const simulate = simulatorOf(plan);
  return ({ choice, mPerMin, fromSeed, runs }) =>
    Array.from({ length: runs }, (_, index) => figuresOf(simulate(choice, { mPerMin, seed: fromSeed + index })));
}
