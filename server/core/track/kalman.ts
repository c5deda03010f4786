/**
 * A Kalman filter for three numbers: the stock's position x (mm), its speed v (mm/ms), and the zero o of a count of travel
 * (position less count, mm). Speed is driven by white acceleration, the zero wanders with the way travelled.
 * Source: Bar-Shalom, Li and Kirubarajan, Estimation with Applications to Tracking and Navigation, 2001, sections 5.2 (filter)
 * and 6.2.2 (nearly constant velocity) (from memory); checked against a batch solution in test/core/track.
 * Written out cell by cell, without loops and copies: a run asks some thousands of times, and `simulate` thousands of runs.
 * Error: exact for a linear system; variances lose at most some 1e-16 of the greatest that they were learnt down from.
 */

/** x, v, o */
export type Mean = readonly [number, number, number];
/** Row by row. */
export type Cov = readonly [number, number, number, number, number, number, number, number, number];
export interface Belief {
  readonly atMs: number;
  readonly mean: Mean;
  readonly cov: Cov;
}

/** How fast speed and zero wander. */
export interface Wander {
  /** Spectral density of the acceleration, mm^2/ms^3. */
  readonly acceleration: number;
  /** Variance of the count's zero for each millimetre of way, mm^2/mm. */
  readonly zeroPerMm: number;
}

/** The belief carried on to `atMs`, which is not before its own time. Carrying on in two steps gives the same. */
export function carryOn(belief: Belief, atMs: number, { acceleration, zeroPerMm }: Wander): Belief {
  const { atMs: fromMs, mean, cov } = belief;
  const dt = atMs - fromMs;
  if (!(dt >= 0)) throw new Error(`a belief of ${fromMs} cannot be carried back to ${atMs}`);
  if (dt === 0) return belief;
  const drift = acceleration * dt;
  const speed = mean[1];
  const xv = cov[1];
  const vv = cov[4];
  const vo = cov[5];
  const xvOn = xv + dt * vv + (drift * dt) / 2;
  const xoOn = cov[2] + dt * vo;
  return {
    atMs,
    mean: [mean[0] + speed * dt, speed, mean[2]],
    cov: [
      cov[0] + 2 * dt * xv + dt * dt * vv + (drift * dt * dt) / 3,
      xvOn,
      xoOn,
      xvOn,
      vv + drift,
      vo,
      xoOn,
      vo,
      cov[8] + zeroPerMm * Math.abs(speed) * dt,
    ],
  };
}

/** What a reading tells: `wanted` = h . (x, v, o) + noise of this variance. */
export interface Reading {
  readonly h: Mean;
  readonly wanted: number;
  readonly variance: number;
}

/** How far a reading stands off the belief, and the variance that the two together allow it. */
export function surprise({ mean, cov }: Belief, { h, wanted, variance }: Reading): { off: number; variance: number } {
  const ph = timesVector(cov, h);
  return { off: wanted - dot(h, mean), variance: dot(h, ph) + variance };
}

/** The belief after a reading at its own time: P - (P h)(P h)' / s, symmetric by its form. */
export function learn({ atMs, mean, cov }: Belief, { h, wanted, variance }: Reading): Belief {
  const ph = timesVector(cov, h);
  const s = dot(h, ph) + variance;
  const share = (wanted - dot(h, mean)) / s;
  const x = ph[0];
  const v = ph[1];
  const o = ph[2];
  const xv = cov[1] - (x * v) / s;
  const xo = cov[2] - (x * o) / s;
  const vo = cov[5] - (v * o) / s;
  return {
    atMs,
    mean: [mean[0] + x * share, mean[1] + v * share, mean[2] + o * share],
    cov: [cov[0] - (x * x) / s, xv, xo, xv, cov[4] - (v * v) / s, vo, xo, vo, cov[8] - (o * o) / s],
  };
}

const dot = (a: Mean, b: Mean): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const timesVector = (m: Cov, h: Mean): Mean => [
  m[0] * h[0] + m[1] * h[1] + m[2] * h[2],
  m[3] * h[0] + m[4] * h[1] + m[5] * h[2],
  m[6] * h[0] + m[7] * h[1] + m[8] * h[2],
];
