/**
 * The filter under the track against a general reference library: numpy and scipy, as a matrix filter (Van Loan's step,
 * Joseph's update) and as one least squares over the whole path. Status: read, that is computed by
 * test/outside/fixtures/scipy_track.py with the versions kept in the fixture.
 */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { type Belief, type Cov, carryOn, learn, type Mean, type Wander } from '../../server/core/track/kalman.ts';
import { expectClose } from '../kit/close.ts';

interface Row {
  readonly atMs: number;
  readonly h: Mean;
  readonly wanted: number;
  readonly variance: number;
}
interface Moments {
  readonly mean: Mean;
  readonly cov: Cov;
}
interface Reference {
  readonly made: { readonly numpy: string; readonly scipy: string };
  readonly prior: Moments;
  readonly wander: Wander;
  readonly filtered: { readonly readings: readonly Row[]; readonly path: readonly Moments[] };
  readonly atOnce: { readonly zeroPerMm: number; readonly readings: readonly Row[]; readonly last: Moments };
}

const reference: Reference = JSON.parse(readFileSync(new URL('./fixtures/scipy-track.json', import.meta.url), 'utf8'));

function path(readings: readonly Row[], wander: Wander): Belief[] {
  let belief: Belief = { atMs: 0, ...reference.prior };
  return readings.map((row) => {
    belief = learn(carryOn(belief, row.atMs, wander), row);
    return belief;
  });
}

/** A cell of the covariance is held to `share` of the two standard deviations that it belongs to. */
function expectSame(actual: Moments, wanted: Moments, share: number, of: string): void {
  const sds = [0, 4, 8].map((index) => Math.sqrt(wanted.cov[index] ?? Number.NaN));
  for (const [row, value] of wanted.mean.entries()) {
    const sd = sds[row] ?? Number.NaN;
    expectClose(actual.mean[row] ?? Number.NaN, value, share * sd, `${of}, mean ${row}`);
    for (const [column, other] of sds.entries()) {
      const index = 3 * row + column;
      expectClose(
        actual.cov[index] ?? Number.NaN,
        wanted.cov[index] ?? Number.NaN,
        share * sd * other,
        `${of}, cov ${index}`,
      );
    }
  }
}

test(`after each of sixty readings, as the matrix filter of scipy ${reference.made.scipy}`, () => {
  const { readings, path: wanted } = reference.filtered;
  const beliefs = path(readings, reference.wander);
  expect(beliefs.length).toBe(wanted.length);
  for (const [index, moments] of wanted.entries()) {
    const belief = beliefs[index];
    if (belief === undefined) throw new Error(`no belief ${index}`);
    expectSame(belief, moments, 1e-8, `reading ${index}`);
  }
});

test('at the end of a path, as one least squares over the whole of it', () => {
  const { readings, last, zeroPerMm } = reference.atOnce;
  const belief = path(readings, { ...reference.wander, zeroPerMm }).at(-1);
  if (belief === undefined) throw new Error('no belief');
  expectSame(belief, last, 1e-4, 'last');
});
