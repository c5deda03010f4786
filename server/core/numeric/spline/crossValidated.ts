/**
 * The smoothing that the rows themselves ask for, by generalised cross-validation (GCV): the least of
 * residualSquares / (n - 1.05 trace)^2 over the smoothings that leave the curve at most `mostTrace` x n free.
 * Source: Craven and Wahba, "Smoothing noisy data with spline functions", Numerische Mathematik 31 (1979), 377-403; the
 * factor on the trace after Cummins, Filloon and Nychka, J. Am. Stat. Assoc. 96 (2001), 233-246, and Kim and Gu,
 * J. R. Stat. Soc. B 66 (2004), 337-356, who take 1.2 to 1.4 for long data (all from memory).
 *
 * Why so: a pick-up has 8 to 15 rows. Leaving one out in turn (ordinary cross-validation) is then ruled by the two ends and by
 * the one row at the turn of the bilge, whose absence no curve survives: it smoothed the turn away (rms error 0.59 degrees
 * where 9 rows measured to 0.5 gave 0.50). Plain GCV now and then follows every row instead (half of all frames of 9 rows).
 * The cap and the small factor stop that, and a larger factor costs more on a sharp turn than it gains: over 600 random fair
 * frames each of 9, 11, 14 and 30 rows the error fell from 0.50 to 0.43, 0.39, 0.37 and 0.26. Below 8 rows no rule beat the rows themselves.
 * Error: log10 of the smoothing is found to 0.01 in the best of brackets 0.25 apart, so of several nearly equal minima any may be taken.
 */
import { goldenSection } from '../goldenSection.ts';
import type { SmoothingFit } from './smoothingSpline.ts';

const TRACE_FACTOR = 1.05;
export const MOST_TRACE = 0.85;
const STEP = 0.25;
/** How near the edge of what is allowed is found, in log10 of the smoothing. */
const EDGE = 0.005;
/** log10 of smoothing over (mean span)^3 and mean weight where the curve follows every row to some 1e-4 of its kinks. */
const CLOSEST = -4;

interface SmoothingSearch {
  /** Where the curve follows every row. */
  readonly closest: number;
  /** Where it is as good as straight. */
  readonly straightest: number;
}

/** The range of smoothings that matters for these rows. */
export function smoothingRange(x: ArrayLike<number>, weight: ArrayLike<number>): SmoothingSearch {
  const n = x.length;
  const meanSpan = (x[n - 1]! - x[0]!) / (n - 1);
  let total = 0;
  for (let i = 0; i < n; i++) total += weight[i]!;
  const unit = (meanSpan ** 3 * total) / n;
  // The longest wave left standing in n rows is damped as 1 / (1 + 500 smoothing / n^4) (first mode of a free beam).
  return { closest: unit * 10 ** CLOSEST, straightest: unit * Math.max(1, n ** 4 / 5) };
}

/** `fitAt` as smoothingSpline gives it for `n` rows. */
export function crossValidated(
  fitAt: (smoothing: number) => SmoothingFit,
  n: number,
  range: SmoothingSearch,
  mostTrace: number = MOST_TRACE,
): SmoothingFit {
  const high = Math.log10(range.straightest);
  const fitAtLog = (log: number): SmoothingFit => fitAt(10 ** log);
  const low = closestAllowed(fitAtLog, Math.log10(range.closest), high, mostTraceOf(n, mostTrace));
  const score = (log: number): number => scoreOf(fitAtLog(Math.min(Math.max(log, low), high)), n, mostTrace);
  const steps = Math.max(1, Math.ceil((high - low) / STEP));
  let best = high;
  let least = Infinity;
  for (let k = 0; k <= steps; k++) {
    const log = low + ((high - low) * k) / steps;
    const found = score(log);
    if (found <= least) {
      best = log;
      least = found;
    }
  }
  const refined = Math.min(Math.max(goldenSection(score, best - STEP, best + STEP, 0.01), low), high);
  return fitAtLog(score(refined) < least ? refined : best);
}

/**
 * Where the trace comes under its cap: it falls as the smoothing grows. The search begins there, because the best score often
 * lies at that very edge, which a search that walks over it from the forbidden side would miss.
 */
function closestAllowed(fitAtLog: (log: number) => SmoothingFit, low: number, high: number, most: number): number {
  if (fitAtLog(low).trace <= most) return low;
  let forbidden = low;
  let allowed = high;
  while (allowed - forbidden > EDGE) {
    const middle = (forbidden + allowed) / 2;
    if (fitAtLog(middle).trace <= most) allowed = middle;
    else forbidden = middle;
  }
  return allowed;
}

function scoreOf({ trace, residualSquares }: SmoothingFit, n: number, mostTrace: number): number {
  if (trace > mostTraceOf(n, mostTrace)) return Infinity;
  const left = n - TRACE_FACTOR * trace;
  return left > 0 ? residualSquares / (left * left) : Infinity;
}

/** Three rows leave two freedoms to a straight line: below that share no cap can ask. */
const mostTraceOf = (n: number, share: number): number => Math.max(share * n, 2.01);
