/** From one person's times (or rates), turn by turn: the middle, how sure it is, and the figure to plan by. */
import { median, sdByMedian } from '../../numeric/median.ts';
import { studentNineInTen } from '../../numeric/studentT.ts';

/** Seconds, or turns a second. */
export interface HandEstimate {
  /** Half of this person's turns are slower, half quicker. */
  readonly median: number;
  /** Standard error of the median, in its units. */
  readonly error: number;
  /** Standard deviation of the logarithm from turn to turn; what the measuring itself blurs is taken out. */
  readonly spread: number;
  /** On how many turns it rests. */
  readonly turns: number;
}

interface MeasuredValue {
  readonly value: number;
  /** Of the measuring, in the same units. */
  readonly error: number;
}

/** Of fewer turns nothing is said. */
const FEWEST_TURNS = 5;
/** Farther off than so many (robust) standard deviations a turn is no turn like the others: Hampel's identifier (from memory). */
const OUTLYING = 3.5;
/** The Hodges-Lehmann estimator needs 1/0.955 as many values as a mean for the same error, where they spread normally. */
const EFFICIENCY = 0.955;

/**
 * Reaction times spread unevenly, so their logarithms are looked at. Their middle is the median of the means of all pairs
 * (Hodges and Lehmann, Ann. Math. Stat. 34 (1963), 598-611, from memory): as little moved by an odd turn as a median, and
 * nearly as sharp as a mean. Null of too few turns. `commonError`: an error that all turns share, in the units of the values.
 */
export function estimateOf(measured: readonly MeasuredValue[], commonError = 0): HandEstimate | null {
  const whole = measured
    .filter(({ value }) => value > 0)
    .map(({ value, error }) => ({ log: Math.log(value), error: error / value }));
  const kept = withoutOutlying(whole);
  if (kept.length < FEWEST_TURNS) return null;
  const n = kept.length;
  const middle = middleOfPairs(kept.map(({ log }) => log));
  const seen = kept.reduce((sum, { log }) => sum + (log - middle) ** 2, 0) / (n - 1);
  const blur = kept.reduce((sum, { error }) => sum + error * error, 0) / n;
  const value = Math.exp(middle);
  return {
    median: value,
    error: Math.hypot(value * Math.sqrt(Math.max(seen, blur) / (EFFICIENCY * n)), commonError),
    spread: Math.sqrt(Math.max(0, seen - blur)),
    turns: n,
  };
}

function withoutOutlying<T extends { readonly log: number }>(values: readonly T[]): readonly T[] {
  const middle = median(values.map(({ log }) => log));
  const scale = sdByMedian(values.map(({ log }) => Math.abs(log - middle)));
  // Times that agree to a few per cent are no reason to call the next one odd.
  return values.filter(({ log }) => Math.abs(log - middle) <= OUTLYING * Math.max(scale, 0.05));
}

function middleOfPairs(values: readonly number[]): number {
  return median(values.flatMap((a, i) => values.slice(i).map((b) => (a + b) / 2)));
}

/**
 * The figure that nine in ten of this person's next turns keep to: `slow` for a time (not longer than), `quick` for a rate
 * (not slower than). The bound for one more value of a lognormal, with Student's t for what so few turns leave unsure (derived).
 *
 * Why nine in ten: planned by the median a call is late half of the time. The tenth turn is at most some 150 ms later still
 * where times spread by a fifth, which the lead keeps in hand anyway; a yet surer figure would have the other nine turned to so
 * early that the tilt runs ahead of the wood.
 */
export function nineInTen({ median: value, error, spread, turns }: HandEstimate, way: 'slow' | 'quick'): number {
  const sd = Math.hypot(spread, error / value);
  const sign = way === 'slow' ? 1 : -1;
  return value * Math.exp(sign * studentNineInTen(Math.max(3, turns - 1)) * sd);
}

/**
 * Several runs of one person as one: weighted by their standard errors, and the error widened where the runs differ by more
 * than those allow (Birge, Phys. Rev. 40 (1932), 207-227, from memory). Null of none.
 */
export function pooled(runs: readonly HandEstimate[]): HandEstimate | null {
  if (runs.length === 0) return null;
  const logs = runs.map((run) => ({ log: Math.log(run.median), weight: (run.median / run.error) ** 2, run }));
  const weights = logs.reduce((sum, { weight }) => sum + weight, 0);
  const middle = logs.reduce((sum, { log, weight }) => sum + weight * log, 0) / weights;
  const off = logs.reduce((sum, { log, weight }) => sum + weight * (log - middle) ** 2, 0);
  const widened = runs.length > 1 ? Math.max(1, Math.sqrt(off / (runs.length - 1))) : 1;
  const turns = runs.reduce((sum, run) => sum + run.turns, 0);
  const freedom = turns - runs.length;
  const spreads = runs.reduce((sum, run) => sum + (run.turns - 1) * run.spread ** 2, 0);
  const value = Math.exp(middle);
  return { median: value, error: (value * widened) / Math.sqrt(weights), spread: Math.sqrt(spreads / freedom), turns };
}
