import { draws } from '../../server/core/numeric/draws.ts';
import { CHOICES } from '../../server/core/simulate/choices.ts';
import { simulatePlan } from '../../server/core/simulate/simulatePlan.ts';
import { demoPlan } from '../kit/demoPlan.ts';
import { faultsOf } from '../kit/faultsOf.ts';

const RUNS = 10_000;

/** Runs with feeds that wander and stops anywhere, on every routine: nothing late, wrong, overlapping or passed over. */
export async function tenThousandRuns(): Promise<void> {
  const plan = await demoPlan();
  const choices = Object.entries(CHOICES).filter(([name]) => name !== 'shop routine');
  const draw = draws(2026);
  let calls = 0;
  let missed = 0;
  const faults: string[] = [];
  const startedMs = performance.now();
  for (let run = 0; run < RUNS; run += 1) {
    const [name, choice] = choices[run % choices.length] ?? ['', undefined];
    if (choice === undefined) throw new Error('no routine to simulate');
    const stops = Array.from({ length: Math.floor(3 * draw.even()) }, () => 100 + 1600 * draw.even())
      .sort((a, b) => a - b)
      .map((atMm) => ({ atMm, forMs: 500 + 4000 * draw.even() }));
    const result = simulatePlan(plan, choice, { mPerMin: 1 + 5 * draw.even(), seed: run, stops });
    calls += result.calls.length;
    missed += result.missed.length;
    faults.push(...faultsOf(plan, result).map((fault) => `run ${run}, ${name}: ${fault}`));
    if (run % 1000 === 999)
      console.log(`${run + 1} runs, ${calls} calls, ${missed} recorded as missed, ${faults.length} faults`);
  }
  const tookS = (performance.now() - startedMs) / 1000;
  console.log(`${RUNS} runs in ${tookS.toFixed(0)} s, ${(RUNS / tookS).toFixed(0)} a second`);
  for (const fault of faults.slice(0, 20)) console.log(fault);
  if (faults.length > 0) process.exitCode = 1;
}
