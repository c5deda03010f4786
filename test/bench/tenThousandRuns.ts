import { draws } from '../../server/core/numeric/draws.ts';
import { CHOICES, SHOP_ROUTINE } from '../../server/core/simulate/choices.ts';
import { simulatorOf } from '../../server/core/simulate/simulatePlan.ts';
import { type WrongKind, wrongsOf } from '../core/simulate/wrongsOf.ts';
import { demoPlan } from '../kit/demoPlan.ts';
import { randomPlans } from './randomPlans.ts';
import { randomStops } from './randomStops.ts';

const RUNS = 10_000;
const RANDOM_FRAMES = 9;
const EXAMPLES_OF_A_KIND = 3;

/** Runs with feeds that wander, stops and pull-backs, on every routine: nothing late, wrong, overlapping or passed over. */
export async function tenThousandRuns(): Promise<void> {
  const plans = [await demoPlan(), ...randomPlans(RANDOM_FRAMES)].map((plan) => ({
    plan,
    simulate: simulatorOf(plan),
    callDegs: new Map(plan.marks.map(({ mark, callDeg }) => [mark, callDeg])),
  }));
  const choices = Object.entries(CHOICES).filter(([name]) => name !== SHOP_ROUTINE);
  const draw = draws(2026);
  const tally = newTally();
  const startedMs = performance.now();
  for (let run = 0; run < RUNS; run += 1) {
    // Half the runs on the demo frame.
    const made = plans[run % 2 === 0 ? 0 : 1 + (Math.floor(run / 2) % RANDOM_FRAMES)];
    const [name, choice] = choices[Math.floor(choices.length * draw.even())] ?? [];
    if (made === undefined || name === undefined || choice === undefined) throw new Error('nothing to simulate');
    const { plan, simulate, callDegs } = made;
    const share = 0.25 + 1.25 * draw.even();
    const stops = randomStops(draw, plan.stock.lengthMm);
    const result = simulate(choice, { mPerMin: share * plan.pace.limitMPerMin, seed: run, stops });
    tally.calls += result.calls.length;
    tally.cutOff += result.calls.filter(({ isCutOff }) => isCutOff).length;
    for (const { reason } of result.missed) tally.missed.set(reason, 1 + (tally.missed.get(reason) ?? 0));
    for (const { kind, what } of wrongsOf(callDegs, result))
      note(tally, kind, name, share <= 1, `run ${run}, ${name}, ${share.toFixed(2)} of the pace limit: ${what}`);
    if (run % 1000 === 999) console.error(`${run + 1} runs, ${tally.calls} calls`);
  }
  const tookS = (performance.now() - startedMs) / 1000;
  console.log(`${RUNS} runs in ${tookS.toFixed(0)} s, ${(RUNS / tookS).toFixed(0)} a second`);
  tell(tally);
  if (tally.wrongs.size > 0) process.exitCode = 1;
}

interface Tally {
  calls: number;
  cutOff: number;
  readonly missed: Map<string, number>;
  readonly wrongs: Map<
    WrongKind,
    { count: number; inPace: number; readonly byRoutine: Map<string, number>; readonly examples: string[] }
  >;
}
const newTally = (): Tally => ({ calls: 0, cutOff: 0, missed: new Map(), wrongs: new Map() });

function note({ wrongs }: Tally, kind: WrongKind, routine: string, isInPace: boolean, example: string): void {
  const found = wrongs.get(kind) ?? { count: 0, inPace: 0, byRoutine: new Map<string, number>(), examples: [] };
  found.count += 1;
  if (isInPace) found.inPace += 1;
  found.byRoutine.set(routine, 1 + (found.byRoutine.get(routine) ?? 0));
  if (found.examples.length < EXAMPLES_OF_A_KIND) found.examples.push(example);
  wrongs.set(kind, found);
}

function tell({ calls, cutOff, missed, wrongs }: Tally): void {
  console.log(`${calls} calls given, ${cutOff} of them cut off`);
  for (const [reason, count] of missed) console.log(`${count} marks merged or missed, and recorded: ${reason}`);
  if (wrongs.size === 0) console.log('no call late, none wrong, none over another, no mark passed over');
  for (const [kind, { count, inPace, byRoutine, examples }] of wrongs) {
    console.log(
      `WRONG, ${count} x ${kind}, ${inPace} of them within the pace limit: ${[...byRoutine].map(([name, times]) => `${times} ${name}`).join('; ')}`,
    );
    for (const example of examples) console.log(`    ${example}`);
  }
}
