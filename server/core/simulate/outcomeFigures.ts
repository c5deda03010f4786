/** What is kept of a simulated run when thousands are gone through: a few figures, and what was missed and why. */
import type { Simulated, SimulatedCall } from './simulation.ts';

export interface RunFigures {
  readonly rmsDeg: number;
  readonly worstDeg: number;
  readonly worstGapMm: number;
  readonly durationS: number;
  /** Calls that were over after their mark was at the blade; in the shop routine all of them, by its nature. */
  readonly lateCalls: number;
  /** How many marks were merged or missed, by the reason that was recorded. */
  readonly missed: Readonly<Record<string, number>>;
}

export function figuresOf({ rmsDeg, worstDeg, worstGapMm, durationS, calls, missed }: Simulated): RunFigures {
  const byReason: Record<string, number> = {};
  for (const { reason } of missed) byReason[reason] = (byReason[reason] ?? 0) + 1;
  return { rmsDeg, worstDeg, worstGapMm, durationS, lateCalls: calls.filter(isLate).length, missed: byReason };
}

const isLate = ({ marginMs, isCutOff }: SimulatedCall): boolean => marginMs !== null && marginMs < 0 && !isCutOff;

/** So many runs of every hundred stay under the figure: half of them, ninety-five, all. */
export interface Spread {
  readonly half: number;
  readonly most: number;
  readonly all: number;
}

export interface SummedFigures {
  /** Over all runs together. */
  readonly rmsDeg: number;
  readonly worstDeg: number;
  readonly worstGapMm: number;
  /** The mean. */
  readonly durationS: number;
  readonly lateCalls: number;
  readonly missedCalls: number;
  readonly spread: { readonly rmsDeg: Spread; readonly worstDeg: Spread; readonly worstGapMm: Spread };
  readonly missed: readonly { readonly reason: string; readonly marks: number; readonly runs: number }[];
}

/** At least one run. The same for the same runs in the same order, however they were shared out. */
export function summed(runs: readonly RunFigures[]): SummedFigures {
  if (runs.length === 0) throw new Error('no runs to sum up');
  const total = (of: (run: RunFigures) => number): number => runs.reduce((sum, run) => sum + of(run), 0);
  const spread = {
    rmsDeg: spreadOf(runs.map(({ rmsDeg }) => rmsDeg)),
    worstDeg: spreadOf(runs.map(({ worstDeg }) => worstDeg)),
    worstGapMm: spreadOf(runs.map(({ worstGapMm }) => worstGapMm)),
  };
  const missed = missedIn(runs);
  return {
    rmsDeg: Math.sqrt(total(({ rmsDeg }) => rmsDeg ** 2) / runs.length),
    worstDeg: spread.worstDeg.all,
    worstGapMm: spread.worstGapMm.all,
    durationS: total(({ durationS }) => durationS) / runs.length,
    lateCalls: total(({ lateCalls }) => lateCalls),
    missedCalls: missed.reduce((sum, { marks }) => sum + marks, 0),
    spread,
    missed,
  };
}

function spreadOf(values: readonly number[]): Spread {
  const sorted = values.toSorted((a, b) => a - b);
  const under = (share: number): number => sorted[Math.ceil(share * sorted.length) - 1] ?? Number.NaN;
  return { half: under(0.5), most: under(0.95), all: under(1) };
}

/** What was missed oftenest first. */
function missedIn(runs: readonly RunFigures[]): SummedFigures['missed'] {
  const found = new Map<string, { marks: number; runs: number }>();
  for (const { missed } of runs)
    for (const [reason, marks] of Object.entries(missed)) {
      const before = found.get(reason) ?? { marks: 0, runs: 0 };
      found.set(reason, { marks: before.marks + marks, runs: before.runs + 1 });
    }
  return [...found].map(([reason, counts]) => ({ reason, ...counts })).sort((a, b) => b.marks - a.marks);
}
