import { plansOfRuns } from './nthRun.ts';
import { overCores } from './overCores.ts';
import { type Fault, type Tally, type TallyRuns, together } from './tally.ts';

const RUNS = 10_000;
const RUNS_OF_A_TASK = 50;
const EXAMPLES_OF_A_KIND = 3;

/** Runs with feeds that wander, stops and pull-backs, on every routine: nothing late, wrong, overlapping or passed over. */
export async function tenThousandRuns(): Promise<void> {
  const tasks = Array.from({ length: RUNS / RUNS_OF_A_TASK }, (_, task) => ({
    from: task * RUNS_OF_A_TASK,
    runs: RUNS_OF_A_TASK,
  }));
  const tally = together(await overCores<TallyRuns, Tally>('tallyOf', await plansOfRuns(), tasks));
  tell(tally);
  if (tally.faults.length > 0) process.exitCode = 1;
}

function tell({ calls, cutOff, missed, faults }: Tally): void {
  console.log(`${calls} calls given, ${cutOff} of them cut off`);
  for (const [reason, marks] of Object.entries(missed))
    console.log(`${marks} marks merged or missed, and recorded: ${reason}`);
  if (faults.length === 0) console.log('no call late, none wrong, none over another, no mark passed over');
  for (const [kind, found] of grouped(faults, (fault) => fault.kind)) tellKind(kind, found);
}

function tellKind(kind: string, faults: readonly Fault[]): void {
  const inPace = faults.filter(({ share }) => share <= 1).length;
  const byRoutine = grouped(faults, ({ routine }) => routine);
  console.log(
    `WRONG, ${faults.length} x ${kind}, ${inPace} of them within the pace limit: ${byRoutine.map(([name, of]) => `${of.length} ${name}`).join('; ')}`,
  );
  for (const [, of] of byRoutine)
    for (const { run, routine, share, what } of of.slice(0, EXAMPLES_OF_A_KIND))
      console.log(`    run ${run}, ${routine}, ${share.toFixed(2)} of the pace limit: ${what}`);
}

function grouped(
  faults: readonly Fault[],
  by: (fault: Fault) => string,
): readonly (readonly [string, readonly Fault[]])[] {
  return [...new Set(faults.map(by))].map((name) => [name, faults.filter((fault) => by(fault) === name)]);
}
