/** What is kept of many runs that were looked over for what must not be. */
import type { Plan } from '../../server/core/plan/plan.ts';
import { simulatorOf } from '../../server/core/simulate/simulatePlan.ts';
import { wantedOf } from '../core/simulate/wanted.ts';
import type { WrongKind } from '../core/simulate/wrong.ts';
import { wrongsOf } from '../core/simulate/wrongsOf.ts';
import { nthRun } from './nthRun.ts';

export interface TallyRuns {
  readonly from: number;
  readonly runs: number;
}
/** `stuck`: the engine wanted to be woken without end, or the run never came to its end. */
export type FaultKind = WrongKind | 'stuck';
export interface Fault {
  readonly run: number;
  readonly kind: FaultKind;
  readonly routine: string;
  /** Of the plan's pace limit. */
  readonly share: number;
  readonly what: string;
}
export interface Tally {
  readonly calls: number;
  readonly cutOff: number;
  /** How many marks were merged or missed, by the reason that was recorded. */
  readonly missed: Readonly<Record<string, number>>;
  readonly faults: readonly Fault[];
}

export function tallied(plans: readonly Plan[]): (task: TallyRuns) => Tally {
  const made = plans.map((plan) => ({ simulate: simulatorOf(plan), wanted: wantedOf(plan) }));
  const lookAt = (number: number): Tally => {
    const { plan, routine, choice, mPerMin, share, seed, stops, faults } = nthRun(number, plans);
    const { simulate, wanted } = made[plan] ?? {};
    if (simulate === undefined || wanted === undefined) throw new Error(`no plan ${plan}`);
    const fault = { run: number, routine, share };
    try {
      const run = simulate(choice, { mPerMin, seed, stops, faults });
      const missed: Record<string, number> = {};
      for (const { reason } of run.missed) missed[reason] = (missed[reason] ?? 0) + 1;
      const isByDegrees = choice.routine === 'degree by degree';
      return {
        calls: run.calls.length,
        cutOff: run.calls.filter(({ isCutOff }) => isCutOff).length,
        missed,
        faults: wrongsOf(wanted, run, { mPerMin, isByDegrees, source: choice.source }).map((wrong) => ({
          ...fault,
          ...wrong,
        })),
      };
    } catch (error) {
      return { ...NOTHING, faults: [{ ...fault, kind: 'stuck', what: (error as Error).message }] };
    }
  };
  return ({ from, runs }) => together(Array.from({ length: runs }, (_, index) => lookAt(from + index)));
}

const NOTHING: Tally = { calls: 0, cutOff: 0, missed: {}, faults: [] };

export function together(tallies: readonly Tally[]): Tally {
  const missed: Record<string, number> = {};
  for (const tally of tallies)
    for (const [reason, marks] of Object.entries(tally.missed)) missed[reason] = (missed[reason] ?? 0) + marks;
  return {
    calls: tallies.reduce((sum, { calls }) => sum + calls, 0),
    cutOff: tallies.reduce((sum, { cutOff }) => sum + cutOff, 0),
    missed,
    faults: tallies.flatMap(({ faults }) => faults),
  };
}
