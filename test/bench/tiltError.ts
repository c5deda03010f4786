import type { Plan } from '../../server/core/plan/plan.ts';
import { makeSetup } from '../../server/core/run/makeSetup.ts';
import { wheelDegPerS } from '../../server/core/saw/handwheel.ts';
import { CHOICES, SHOP_ROUTINE } from '../../server/core/simulate/choices.ts';
import type { RunFigures } from '../../server/core/simulate/outcomeFigures.ts';
import { demoPlan } from '../kit/demoPlan.ts';
import type { CellOutcome, CellRuns } from './cell.ts';
import { MODELLED_HANDS, USUAL_HAND } from './modelledHands.ts';
import { overCores } from './overCores.ts';
import { randomPlansThat } from './randomPlans.ts';

const FEEDS_M_PER_MIN = [1, 2, 3, 4, 6];
/** The feed at which the routines are held against each other. */
const GOAL_M_PER_MIN = 3;
const RUNS_OF_DEMO = 50;
const RUNS_OF_OTHERS = 2;
const FRAMES = 50;

const ON_READOUT = 'following on the readout';
const ON_SENSOR = 'following on a tilt sensor';
const isByVoice = (name: string): boolean => name !== SHOP_ROUTINE && !name.startsWith('following');

interface Group {
  readonly title: string;
  /** By their number among all. */
  readonly plans: readonly number[];
  readonly runsEach: number;
}
interface Cell {
  readonly rmsDeg: number;
  readonly worstDeg: number;
  readonly worstGapMm: number;
}
type CellOf = (group: Group, routine: string, mPerMin: number, hand: string) => Cell;

/**
 * Tilt error against feed for each routine, beside the plain shop routine with the same modelled hand and the same seeds; the
 * goals at 3 m/min; and what becomes of them with a worse hand.
 */
export async function tiltError(): Promise<void> {
  const demo = await demoPlan();
  const { fit, setAside } = randomPlansThat((plan) => steepestDegPerS(plan) <= wheelDegPerS(plan), FRAMES);
  const plans = [demo, ...fit, ...setAside];
  const groups = groupsOf(fit.length, setAside.length);
  const [demoGroup, fitGroup] = groups;
  const tasks = [
    ...groups.flatMap((group) => tasksOf(group, Object.keys(CHOICES), FEEDS_M_PER_MIN, USUAL_HAND)),
    ...[demoGroup, fitGroup].flatMap((group) =>
      Object.keys(MODELLED_HANDS)
        .filter((hand) => hand !== USUAL_HAND)
        .flatMap((hand) => tasksOf(group, Object.keys(CHOICES), [GOAL_M_PER_MIN], hand)),
    ),
  ];
  const outcomes = await overCores<CellRuns, CellOutcome>('cellsOf', plans, tasks);
  const cells = new Map(tasks.map((task, index) => [keyOf(task), cellOf(outcomes[index]?.figures ?? [])]));
  const at: CellOf = (group, routine, mPerMin, hand) => {
    const cell = cells.get(keyOf({ routine, mPerMin, plans: group.plans, hand }));
    if (cell === undefined) throw new Error(`nothing was simulated of ${routine} at ${mPerMin} m/min`);
    return cell;
  };
  tellSetAside(fit, setAside);
  for (const group of groups) tellTable(group, at);
  console.log(
    '\nrms (worst) in degrees at the blade, worst gap at the planking in mm, rms as a share of the shop routine at the same feed',
  );
  for (const group of [demoGroup, fitGroup]) tellGoals(group, at);
  for (const group of [demoGroup, fitGroup]) tellHands(group, at);
  tellStuck(outcomes.flatMap(({ stuck }) => stuck));
}

function groupsOf(fit: number, setAside: number): readonly [Group, Group, Group] {
  const from = (first: number, count: number): number[] => Array.from({ length: count }, (_, index) => first + index);
  return [
    { title: `the demo frame, ${RUNS_OF_DEMO} runs each`, plans: [0], runsEach: RUNS_OF_DEMO },
    { title: `${fit} random fair frames, ${RUNS_OF_OTHERS} runs each`, plans: from(1, fit), runsEach: RUNS_OF_OTHERS },
    {
      title: `all ${fit + setAside} that were drawn, those set aside too, ${RUNS_OF_OTHERS} runs each`,
      plans: from(1, fit + setAside),
      runsEach: RUNS_OF_OTHERS,
    },
  ];
}

function tasksOf(
  { plans, runsEach }: Group,
  routines: readonly string[],
  feeds: readonly number[],
  hand: string,
): readonly CellRuns[] {
  return routines.flatMap((routine) =>
    feeds.map((mPerMin) => ({ routine, mPerMin, plans, runsEach, hand, runs: plans.length * runsEach })),
  );
}

const keyOf = ({ routine, mPerMin, plans, hand }: Pick<CellRuns, 'routine' | 'mPerMin' | 'plans' | 'hand'>): string =>
  `${routine} ${mPerMin} ${plans.length} ${hand}`;

const cellOf = (runs: readonly RunFigures[]): Cell => ({
  rmsDeg: Math.sqrt(runs.reduce((sum, { rmsDeg }) => sum + rmsDeg ** 2, 0) / runs.length),
  worstDeg: Math.max(...runs.map(({ worstDeg }) => worstDeg)),
  worstGapMm: Math.max(...runs.map(({ worstGapMm }) => worstGapMm)),
});

/** How fast the tilt changes where it does so fastest, at the feed of the goals. */
function steepestDegPerS(plan: Plan): number {
  const { positionsMm, tiltsDeg } = makeSetup(plan, 'pair', {}).profile;
  const degPerMm = positionsMm.slice(1).map((toMm, index) => {
    const change = (tiltsDeg[index + 1] ?? 0) - (tiltsDeg[index] ?? 0);
    return Math.abs(change) / (toMm - (positionsMm[index] ?? toMm));
  });
  return (Math.max(...degPerMm) * GOAL_M_PER_MIN * 1000) / 60;
}

function tellSetAside(fit: readonly Plan[], setAside: readonly Plan[]): void {
  const [first] = fit;
  if (first === undefined) return;
  const fastest = Math.max(...fit.map(steepestDegPerS)).toFixed(1);
  const tooFast = setAside.map((plan) => steepestDegPerS(plan).toFixed(1)).join(', ');
  console.log(
    [
      `${fit.length + setAside.length} random fair frames were drawn to have ${fit.length} that this crew can rip at ${GOAL_M_PER_MIN} m/min:`,
      `those whose tilt nowhere changes faster than its wheel turns, ${wheelDegPerS(first).toFixed(1)} degrees a second (the fastest of them ${fastest}).`,
      `Set aside: ${setAside.length}${setAside.length === 0 ? '.' : `, whose tilt changes by ${tooFast} degrees a second somewhere; no routine can go with that at this feed.`}`,
    ].join('\n'),
  );
}

function tellStuck(stuck: readonly string[]): void {
  if (stuck.length === 0) return;
  console.log(`\nWRONG, ${stuck.length} runs never came to their end, and are in no figure above`);
  for (const what of stuck.slice(0, STUCK_SHOWN)) console.log(`    ${what}`);
  process.exitCode = 1;
}

const STUCK_SHOWN = 10;
const NAME = 45;
const CELL = 26;

function tellTable(group: Group, at: CellOf): void {
  console.log(`\n${group.title}`);
  console.log(`${''.padEnd(NAME)}${FEEDS_M_PER_MIN.map((feed) => `${feed} m/min`.padStart(CELL)).join('')}`);
  for (const routine of Object.keys(CHOICES)) {
    const cells = FEEDS_M_PER_MIN.map((feed) => {
      const { rmsDeg, worstDeg, worstGapMm } = at(group, routine, feed, USUAL_HAND);
      const share = (rmsDeg / at(group, SHOP_ROUTINE, feed, USUAL_HAND).rmsDeg).toFixed(2);
      return `${rmsDeg.toFixed(3)} (${worstDeg.toFixed(1)}) ${worstGapMm.toFixed(1)} x${share}`.padStart(CELL);
    });
    console.log(`${routine.padEnd(NAME)}${cells.join('')}`);
  }
}

function bestByVoice(group: Group, at: CellOf, hand: string): string {
  const rms = (routine: string): number => at(group, routine, GOAL_M_PER_MIN, hand).rmsDeg;
  return Object.keys(CHOICES)
    .filter(isByVoice)
    .reduce((best, each) => (rms(each) < rms(best) ? each : best));
}

/** What is asked for at the feed of the goals: at most this part of the shop routine's rms, and under so many degrees. */
interface Goal {
  readonly routine: string;
  readonly part: number;
  readonly underDeg: number;
}
const goalsOf = (group: Group, at: CellOf, hand: string): readonly Goal[] => [
  { routine: bestByVoice(group, at, hand), part: 3, underDeg: Number.POSITIVE_INFINITY },
  { routine: ON_READOUT, part: 6, underDeg: Number.POSITIVE_INFINITY },
  { routine: ON_SENSOR, part: 10, underDeg: 0.15 },
];

function tellGoals(group: Group, at: CellOf): void {
  console.log(`\nThe goals at ${GOAL_M_PER_MIN} m/min, ${group.title}`);
  const shop = at(group, SHOP_ROUTINE, GOAL_M_PER_MIN, USUAL_HAND).rmsDeg;
  for (const goal of goalsOf(group, at, USUAL_HAND)) {
    const { rmsDeg } = at(group, goal.routine, GOAL_M_PER_MIN, USUAL_HAND);
    const isMet = meets(goal, rmsDeg, shop);
    const under = Number.isFinite(goal.underDeg) ? ` and under ${goal.underDeg}` : '';
    console.log(
      `  ${isMet ? 'met   ' : 'MISSED'}  ${goal.routine}: ${rmsDeg.toFixed(3)}, 1/${(shop / rmsDeg).toFixed(1)}; wanted at most 1/${goal.part} of the shop routine's ${shop.toFixed(3)}${under}`,
    );
    if (!isMet) process.exitCode = 1;
  }
}

const meets = ({ part, underDeg }: Goal, rmsDeg: number, shopDeg: number): boolean =>
  rmsDeg <= shopDeg / part && rmsDeg < underDeg;

/** The goals are the usual hand's; with a worse one it is told which of them would be missed. */
function tellHands(group: Group, at: CellOf): void {
  console.log(
    `\nThe same with a worse hand, each beside the shop routine with that hand: rms in degrees, ${group.title}`,
  );
  const header = ['shop routine', 'best by voice', ON_READOUT, ON_SENSOR];
  console.log(`${''.padEnd(NAME)}${header.map((cell) => cell.padStart(CELL + 4)).join('')}`);
  for (const hand of Object.keys(MODELLED_HANDS)) {
    const shop = at(group, SHOP_ROUTINE, GOAL_M_PER_MIN, hand).rmsDeg;
    const cells = goalsOf(group, at, hand).map((goal) => {
      const { rmsDeg } = at(group, goal.routine, GOAL_M_PER_MIN, hand);
      const mark = meets(goal, rmsDeg, shop) ? '' : ' (missed)';
      return `${rmsDeg.toFixed(3)} 1/${(shop / rmsDeg).toFixed(1)}${mark}`.padStart(CELL + 4);
    });
    console.log(`${hand.padEnd(NAME)}${shop.toFixed(3).padStart(CELL + 4)}${cells.join('')}`);
  }
}
