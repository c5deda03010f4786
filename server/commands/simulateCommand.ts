import { feedText } from '../core/figures/feeds.ts';
import { CALIPER_UNIT, caliperFigure } from '../core/figures/lengths.ts';
import { hundredthsFigure, wholeFigure } from '../core/figures/shares.ts';
import { usualHand } from '../core/hand/traits.ts';
import { makePlan } from '../core/makePlan.ts';
import type { Plan } from '../core/plan/plan.ts';
import { CHOICES, type SimulatedChoice } from '../core/simulate/choices.ts';
import { type Spread, type SummedFigures, summed } from '../core/simulate/outcomeFigures.ts';
import { USUAL_FAULTS } from '../core/simulate/simulation.ts';
import { simulateRuns } from '../workers/simulateRuns.ts';
import type { Options } from './door/options.ts';
import { progressOn } from './door/progress.ts';
import { readJob, wrong } from './door/readJob.ts';
import type { Terminal } from './door/terminal.ts';
import { UserMistake } from './door/userMistake.ts';

/** As many runs of each routine as make a figure that holds still. */
const USUAL_RUNS = 40;
const MOST_RUNS = 100_000;
const LEAST_FEED_M_PER_MIN = 0.01;
const MOST_FEED_M_PER_MIN = 30;
const MOST_SEED = 1e9;

/** `simulate JOB [--feed M_PER_MIN] [--routine NAME] [--seed N] [--runs N] [--json]` */
export async function simulate(path: string, options: Options, { out, err }: Terminal): Promise<void> {
  const { parsed } = await readJob(path);
  const made = makePlan(parsed);
  if (!made.ok) throw wrong(made.problems);
  const plan = made.value;
  const mPerMin = readFeed(options.feed, plan.crew.feedMPerMin);
  const seed = readSeed(options.seed);
  const runs = readRuns(options.runs);
  const chosen = readRoutine(options.routine);
  const asked = chosen.map(([, choice]) => ({ choice, mPerMin, fromSeed: seed, runs }));
  const progress = progressOn(err, 'runs', runs * chosen.length);
  const figures = await simulateRuns(plan, asked, { onDone: progress.done }).finally(progress.end);
  const rows = chosen.map(([routine], index): Row => ({ routine, ...summed(figures[index] ?? []) }));
  out.write(
    options.json === true
      ? `${JSON.stringify({ format: 'by-the-mark/simulation@1', title: plan.title, mPerMin, seed, runs, assumed: assumed(plan), routines: rows }, null, 2)}\n`
      : asText(plan, { mPerMin, seed, runs }, rows),
  );
}

/** What the figures rest on, so that nobody takes them for more. */
const assumed = ({ crew, saw }: Plan) => ({
  hand: usualHand(crew, saw.degreesPerTurn, saw.readoutDeg, saw),
  sources: USUAL_FAULTS,
});

type Row = SummedFigures & { readonly routine: string };

const GROUPS = ['rms, degrees', 'worst, degrees'];
const CELL = 7;

function asText(
  plan: Plan,
  { mPerMin, seed, runs }: { readonly mPerMin: number; readonly seed: number; readonly runs: number },
  rows: readonly Row[],
): string {
  const width = Math.max(...rows.map(({ routine }) => routine.length));
  const three = ({ half, most, all }: Spread, say: (figure: number) => string = hundredthsFigure): string =>
    [half, most, all].map((figure) => say(figure).padStart(CELL)).join('');
  const gap = (mm: number): string => caliperFigure(mm, plan.notation);
  const groups = [...GROUPS, `worst gap, ${CALIPER_UNIT[plan.notation]}`];
  const counts = ['late', 'missed', 'seconds'].map((name) => name.padStart(CELL + 1)).join('');
  return `${[
    `${plan.title}: ${runs} simulated runs of each routine at ${feedText(mPerMin, plan.notation, 'nearest')}, seeds ${seed} to ${seed + runs - 1}`,
    'Tilt had less tilt wanted at the blade, with a modelled feed and a modelled hand: a comparison, not a promise.',
    'Of the runs half, 95 in 100 and all stay under these; late and missed are calls of all runs together.',
    '',
    `${''.padEnd(width)}${groups.map((group) => group.padStart(3 * CELL + 2)).join('')}`,
    `${'routine'.padEnd(width)}${groups.map(() => `  ${['half', '95 %', 'all'].map((name) => name.padStart(CELL)).join('')}`).join('')}${counts}`,
    ...rows.map(({ routine, spread, lateCalls, missedCalls, durationS }) =>
      [
        routine.padEnd(width),
        ...[spread.rmsDeg, spread.worstDeg].map((figures) => `  ${three(figures)}`),
        `  ${three(spread.worstGapMm, gap)}`,
        ...[String(lateCalls), String(missedCalls), wholeFigure(durationS)].map((cell) => cell.padStart(CELL + 1)),
      ].join(''),
    ),
    ...missedAsText(rows),
  ].join('\n')}\n`;
}

function missedAsText(rows: readonly Row[]): readonly string[] {
  const lines = rows.flatMap(({ routine, missed }) =>
    missed.map(({ reason, marks, runs }) => `  ${routine}: ${marks} in ${runs} runs: ${reason}`),
  );
  return lines.length === 0 ? [] : ['', 'Marks that were merged or missed, and recorded as such:', ...lines];
}

function readFeed(given: Options[string], usual: number): number {
  if (given === undefined) return usual;
  const feed = Number(given);
  if (!(feed >= LEAST_FEED_M_PER_MIN && feed <= MOST_FEED_M_PER_MIN))
    throw new UserMistake([
      `simulate: --feed ${String(given)}: wanted metres a minute, from ${LEAST_FEED_M_PER_MIN} to ${MOST_FEED_M_PER_MIN}`,
    ]);
  return feed;
}

const readSeed = (given: Options[string]): number =>
  readWhole('seed', given, { usual: 1, least: -MOST_SEED, most: MOST_SEED });
const readRuns = (given: Options[string]): number =>
  readWhole('runs', given, { usual: USUAL_RUNS, least: 1, most: MOST_RUNS });

function readWhole(
  name: string,
  given: Options[string],
  { usual, least, most }: { readonly usual: number; readonly least: number; readonly most: number },
): number {
  if (given === undefined) return usual;
  const number = given === '' ? Number.NaN : Number(given);
  if (!Number.isInteger(number) || number < least || number > most)
    throw new UserMistake([
      `simulate: --${name} ${String(given)}: wanted a whole number, at least ${least} and at most ${most}`,
    ]);
  return number;
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
