/**
 * When a wheel began to turn: standing, speeding up evenly, then turning at its full rate, fitted by least squares with the
 * joints unknown (Hudson, Fitting segmented curves whose join points have to be estimated, J. Am. Stat. Assoc. 61 (1966),
 * 1097-1129, from memory). For a given beginning the tilt stood at and the rate follow in closed form; the beginning is
 * searched for. A straight ramp alone would put the beginning late by half of what the speeding up takes.
 */
import { rowAt } from '../../rowAt.ts';
import type { TiltReading } from './handRecord.ts';

export interface Onset {
  readonly atMs: number;
  /** Signed, at full turning. */
  readonly degPerMs: number;
  readonly fromDeg: number;
  /** Sum of squares of what the fit leaves, degrees squared. */
  readonly squares: number;
}

const COARSE_MS = 24;
const FINE_MS = 3;

/** The best fit with its beginning between the two times; null where fewer than four readings can tell it. */
export function fitOnset(
  readings: readonly TiltReading[],
  fromMs: number,
  toMs: number,
  startUpMs: number,
): Onset | null {
  if (readings.length < 4) return null;
  let best: Onset | null = null;
  const search = (from: number, to: number, stepMs: number): void => {
    for (let atMs = from; atMs <= to; atMs += stepMs) {
      const fit = fitFrom(readings, atMs, startUpMs);
      if (fit !== null && (best === null || fit.squares < best.squares)) best = fit;
    }
  };
  search(fromMs, toMs, COARSE_MS);
  const near = best as Onset | null;
  if (near !== null) search(Math.max(fromMs, near.atMs - COARSE_MS), Math.min(toMs, near.atMs + COARSE_MS), FINE_MS);
  return best;
}

/** How far a wheel has gone `ms` after it began, in units of its full rate. */
const gone = (ms: number, startUpMs: number): number =>
  ms <= 0 ? 0 : ms < startUpMs ? (ms * ms) / (2 * startUpMs) : ms - startUpMs / 2;
/** How fast it goes then, as a share of its full rate. */
const share = (ms: number, startUpMs: number): number => (ms <= 0 ? 0 : ms < startUpMs ? ms / startUpMs : 1);

function fitFrom(readings: readonly TiltReading[], atMs: number, startUpMs: number): Onset | null {
  const n = readings.length;
  const zeroDeg = rowAt(readings, 0).deg;
  let [ways, ways2, degs, degs2, both] = [0, 0, 0, 0, 0];
  for (const reading of readings) {
    const way = gone(reading.atMs - atMs, startUpMs);
    const deg = reading.deg - zeroDeg;
    ways += way;
    ways2 += way * way;
    degs += deg;
    degs2 += deg * deg;
    both += way * deg;
  }
  const spread = ways2 - (ways * ways) / n;
  if (spread <= 1e-9 * ways2 || spread === 0) return null;
  const degPerMs = (both - (ways * degs) / n) / spread;
  const squares = Math.max(0, degs2 - (degs * degs) / n - degPerMs * degPerMs * spread);
  return { atMs, degPerMs, fromDeg: zeroDeg + (degs - degPerMs * ways) / n, squares };
}

/**
 * Standard errors of the beginning (ms) and of the rate (a share of it) where each reading errs by `sdDeg`: from the normal
 * matrix of the fit about its own solution (Gauss-Newton).
 */
export function onsetErrors(
  readings: readonly TiltReading[],
  onset: Onset,
  startUpMs: number,
  sdDeg: number,
): { readonly atMs: number; readonly rate: number } {
  // Unknowns: tilt stood at, rate (relative), beginning. Their derivatives of the tilt at each reading:
  const rows = readings.map(({ atMs }) => {
    const ms = atMs - onset.atMs;
    return [1, onset.degPerMs * gone(ms, startUpMs), -onset.degPerMs * share(ms, startUpMs)] as const;
  });
  const sum = (i: 0 | 1 | 2, j: 0 | 1 | 2): number => rows.reduce((total, row) => total + row[i] * row[j], 0);
  const [aa, ab, ac, bb, bc, cc] = [sum(0, 0), sum(0, 1), sum(0, 2), sum(1, 1), sum(1, 2), sum(2, 2)];
  const det = aa * (bb * cc - bc * bc) - ab * (ab * cc - bc * ac) + ac * (ab * bc - bb * ac);
  if (!(det > 0)) return { atMs: Number.POSITIVE_INFINITY, rate: Number.POSITIVE_INFINITY };
  return {
    atMs: sdDeg * Math.sqrt(Math.max(0, aa * bb - ab * ab) / det),
    rate: sdDeg * Math.sqrt(Math.max(0, aa * cc - ac * ac) / det),
  };
}
