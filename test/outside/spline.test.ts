/**
 * The splines against a general reference library: scipy (make_smoothing_spline, CubicSpline with "not-a-knot"), an
 * independent implementation in B-splines. Status: read, that is computed by test/outside/fixtures/scipy_splines.py with the
 * versions kept in the fixture.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Curve } from '../../server/core/numeric/spline/cubicCurve.ts';
import { cubicSpline } from '../../server/core/numeric/spline/cubicSpline.ts';
import { smoothingSpline } from '../../server/core/numeric/spline/smoothingSpline.ts';
import { expectClose } from '../kit/close.ts';

interface Sampled {
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly at: readonly number[];
  readonly value: readonly number[];
  readonly slope: readonly number[];
  readonly second: readonly number[];
}

interface Rows {
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly weight: readonly number[];
  readonly smoothing: number;
}
interface Reference {
  readonly made: { readonly scipy: string };
  readonly smoothing: readonly (Sampled & Rows & { readonly name: string })[];
  readonly leaveOneOut: Rows & { readonly saidByOthers: readonly number[] };
  readonly interpolating: readonly (Sampled & { readonly name: string })[];
}
const reference: Reference = JSON.parse(
  readFileSync(new URL('./fixtures/scipy-splines.json', import.meta.url), 'utf8'),
);

/** Values to 1e-9 of the data's range; a derivative loses that divided by a span. */
function expectSame(curve: Curve, { x, y, at, value, slope, second }: Sampled): void {
  const range = Math.max(...y) - Math.min(...y);
  const shortest = Math.min(...x.slice(1).map((to, i) => to - (x[i] ?? 0)));
  at.forEach((place, i) => {
    expectClose(curve.valueAt(place), value[i] ?? Number.NaN, 1e-9 * range, `value at ${place}`);
    expectClose(curve.slopeAt(place), slope[i] ?? Number.NaN, (1e-9 * range) / shortest, `slope at ${place}`);
    expectClose(curve.secondAt(place), second[i] ?? Number.NaN, (1e-8 * range) / shortest ** 2, `second at ${place}`);
  });
}

describe(`scipy ${reference.made.scipy}`, () => {
  test.each(reference.smoothing)('smoothing spline: $name', (wanted) => {
    expectSame(smoothingSpline(wanted)(wanted.smoothing).curve, wanted);
  });

  test.each(reference.interpolating)('spline through points: $name', (wanted) => {
    expectSame(cubicSpline(wanted.x, wanted.y), wanted);
  });

  test('what the others say of a row, really left out and fitted again', () => {
    const { saidByOthers, ...rows } = reference.leaveOneOut;
    const { offOthers } = smoothingSpline(rows)(rows.smoothing);
    expect(saidByOthers).toHaveLength(rows.x.length - 2);
    saidByOthers.forEach((said, k) => {
      expectClose((rows.y[k + 1] ?? 0) - (offOthers[k + 1] ?? 0), said, 1e-7, `row ${k + 2}`);
    });
  });
});
