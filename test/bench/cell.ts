import { type HandTraits, usualHand } from '../../server/core/hand/traits.ts';
import type { Plan } from '../../server/core/plan/plan.ts';
import { CHOICES } from '../../server/core/simulate/choices.ts';
import { figuresOf, type RunFigures } from '../../server/core/simulate/outcomeFigures.ts';
import { simulatorOf } from '../../server/core/simulate/simulatePlan.ts';
import { MODELLED_HANDS } from './modelledHands.ts';

/** Runs of some plans with one routine at one feed: what one cell of a table is made of. */
export interface CellRuns {
  readonly routine: string;
  readonly mPerMin: number;
  /** By their number. */
  readonly plans: readonly number[];
  readonly runsEach: number;
  /** A modelled hand, by its name. */
  readonly hand: string;
  readonly runs: number;
}

export interface CellOutcome {
  readonly figures: readonly RunFigures[];
  /** Runs that never came to their end, each with what was wrong. */
  readonly stuck: readonly string[];
}

export function runsOfCell(plans: readonly Plan[]): (cell: CellRuns) => CellOutcome {
  const simulators = plans.map((plan) => simulatorOf(plan));
  return ({ routine, mPerMin, plans: chosen, runsEach, hand }) => {
    const stuck: string[] = [];
    const figures = chosen.flatMap((index) => {
      const [plan, simulate] = [plans[index], simulators[index]];
      const choice = CHOICES[routine];
      if (plan === undefined || simulate === undefined || choice === undefined)
        throw new Error(`no plan ${index}, or no routine ${routine}`);
      const traits = handFor(plan, hand);
      return Array.from({ length: runsEach }, (_, run) => {
        // The same seeds for every routine, feed and hand.
        const seed = 1009 * index + 101 * run + 7;
        try {
          return figuresOf(simulate(choice, { mPerMin, seed, hand: traits }));
        } catch (error) {
          stuck.push(`frame ${index}, ${routine} at ${mPerMin} m/min, seed ${seed}: ${(error as Error).message}`);
          return null;
        }
      });
    });
    return { figures: figures.filter((run) => run !== null), stuck };
  };
}

function handFor({ crew, saw }: Plan, name: string): HandTraits {
  const change = MODELLED_HANDS[name];
  if (change === undefined) throw new Error(`no hand "${name}"`);
  return change(usualHand(crew, saw.degreesPerTurn, saw.readoutDeg));
}
