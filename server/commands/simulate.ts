import { usualHand } from '../core/hand/traits.ts';
import { makePlan } from '../core/makePlan.ts';
import type { Plan } from '../core/plan.ts';
import { CHOICES, type SimulatedChoice } from '../core/simulate/choices.ts';
import { simulatorOf } from '../core/simulate/simulatePlan.ts';
import { type Simulated, USUAL_FAULTS } from '../core/simulate/simulation.ts';
import type { Options } from './options.ts';
import { readJob, wrong } from './readJob.ts';
import type { Terminal } from './terminal.ts';
import { UserMistake } from './userMistake.ts';

/** As many runs of each routine as make a figure that holds still. */
const RUNS = 40;
const MOST_FEED_M_PER_MIN = 30;
const PROGRESS_EVERY_MS = 1000;

/** `simulate JOB [--feed M_PER_MIN] [--routine NAME] [--seed N] [--json]` */
export async function simulate(path: string, options: Options, { out, err }: Terminal): Promise<void> {
  const { parsed } = await readJob(path);
  const made = makePlan(parsed);
  if (!made.ok) throw wrong(made.problems);
  const plan = made.value;
  const mPerMin = readFeed(options.feed, plan.crew.feedMPerMin);
  const seed = readSeed(options.seed);
  const chosen = readRoutine(options.routine);
  const simulatePlan = simulatorOf(plan);
  let toldMs = performance.now();
  const rows = chosen.map(([name, choice], index) => {
    const runs = Array.from({ length: RUNS }, (_, run) => {
      if (performance.now() - toldMs > PROGRESS_EVERY_MS) {
        toldMs = performance.now();
        err.write(`${name}: ${run} of ${RUNS} runs; routine ${index + 1} of ${chosen.length}\n`);
      }
      return simulatePlan(choice, { mPerMin, seed: seed + run });
    });
    return summed(name, runs);
  });
  out.write(
    options.json === true
      ? `${JSON.stringify({ format: 'by-the-mark/simulation@1', title: plan.title, mPerMin, seed, runs: RUNS, assumed: assumed(plan), routines: rows }, null, 2)}\n`
      : asText(plan, mPerMin, seed, rows),
  );
}

/** What the figures rest on, so that nobody takes them for more. */
const assumed = ({ crew, saw }: Plan) => ({
  hand: usualHand(crew, saw.degreesPerTurn, saw.readoutDeg),
  sources: USUAL_FAULTS,
});

interface Row {
  readonly routine: string;
  readonly rmsDeg: number;
  readonly worstDeg: number;
  readonly worstGapMm: number;
  readonly durationS: number;
  /** Calls that were over after their mark was at the blade; in the shop routine all of them, by its nature. */
  readonly lateCalls: number;
  readonly missedCalls: number;
}

function summed(routine: string, runs: readonly Simulated[]): Row {
  const mean = (of: (run: Simulated) => number): number => runs.reduce((sum, run) => sum + of(run), 0) / runs.length;
  return {
    routine,
    rmsDeg: Math.sqrt(mean(({ rmsDeg }) => rmsDeg ** 2)),
    worstDeg: Math.max(...runs.map(({ worstDeg }) => worstDeg)),
    worstGapMm: Math.max(...runs.map(({ worstGapMm }) => worstGapMm)),
    durationS: mean(({ durationS }) => durationS),
    lateCalls: runs.reduce((sum, { calls }) => sum + calls.filter(isLate).length, 0),
    missedCalls: runs.reduce((sum, { missed }) => sum + missed.length, 0),
  };
}

const isLate = ({ marginMs, isCutOff }: Simulated['calls'][number]): boolean =>
  marginMs !== null && marginMs < 0 && !isCutOff;

function asText(plan: Plan, mPerMin: number, seed: number, rows: readonly Row[]): string {
  const width = Math.max(...rows.map(({ routine }) => routine.length));
  const line = (name: string, ...cells: readonly string[]): string =>
    `${name.padEnd(width)}${cells.map((cell) => cell.padStart(13)).join('')}`;
  return `${[
    `${plan.title}: ${RUNS} simulated runs of each routine at ${mPerMin} m/min, seeds from ${seed}`,
    'Tilt had less tilt wanted at the blade, with a modelled feed and a modelled hand: a comparison, not a promise.',
    '',
    line('routine', 'rms deg', 'worst deg', 'worst gap mm', 'late calls', 'missed calls', 'seconds'),
    ...rows.map((row) =>
      line(
        row.routine,
        row.rmsDeg.toFixed(2),
        row.worstDeg.toFixed(2),
        row.worstGapMm.toFixed(2),
        String(row.lateCalls),
        String(row.missedCalls),
        row.durationS.toFixed(0),
      ),
    ),
  ].join('\n')}\n`;
}

function readFeed(given: Options[string], usual: number): number {
  if (given === undefined) return usual;
  const feed = Number(given);
  if (!(feed > 0 && feed <= MOST_FEED_M_PER_MIN))
    throw new UserMistake([
      `simulate: --feed ${String(given)}: wanted metres a minute, more than 0 and at most ${MOST_FEED_M_PER_MIN}`,
    ]);
  return feed;
}

function readSeed(given: Options[string]): number {
  if (given === undefined) return 1;
  const seed = Number(given);
  if (!Number.isInteger(seed) || Math.abs(seed) > 1e9)
    throw new UserMistake([`simulate: --seed ${String(given)}: wanted a whole number of at most nine figures`]);
  return seed;
}

/** A whole name, or the beginning of one or more. */
function readRoutine(given: Options[string]): readonly (readonly [string, SimulatedChoice])[] {
  const all = Object.entries(CHOICES);
  if (given === undefined) return all;
  const found = all.filter(([name]) => name.startsWith(String(given)));
  if (found.length > 0 && given !== '') return found;
  const names = all.map(([name]) => `"${name}"`).join(', ');
  throw new UserMistake([`simulate: --routine ${JSON.stringify(given)}: wanted one of ${names}`]);
}
