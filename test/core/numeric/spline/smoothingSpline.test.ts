import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { smoothingSpline } from '../../../../server/core/numeric/spline/smoothingSpline.ts';
import { expectClose } from '../../../kit/close.ts';
import { entry, inverse, type Matrix, matrix, times, transposed } from '../dense.ts';
import { type SomeRows, someRows, someSmoothing } from '../someRows.ts';

/** The hat matrix (W + smoothing K)^-1 W with K = Q R^-1 Q', all dense. */
function denseHat({ x, weight }: SomeRows, smoothing: number): Matrix {
  const n = x.length;
  const h = (i: number) => (x[i + 1] ?? 0) - (x[i] ?? 0);
  const q = matrix(n, n - 2, (i, j) =>
    i === j ? 1 / h(j) : i === j + 1 ? -1 / h(j) - 1 / h(j + 1) : i === j + 2 ? 1 / h(j + 1) : 0,
  );
  const r = matrix(n - 2, n - 2, (i, j) =>
    i === j ? (h(i) + h(i + 1)) / 3 : Math.abs(i - j) === 1 ? h(Math.max(i, j)) / 6 : 0,
  );
  const k = times(q, times(inverse(r), transposed(q)));
  const w = matrix(n, n, (i, j) => (i === j ? (weight[i] ?? 0) : 0));
  return times(inverse(matrix(n, n, (i, j) => entry(w, i, j) + smoothing * entry(k, i, j))), w);
}

const without = ({ x, y, weight }: SomeRows, out: number): SomeRows => {
  const keep = (_: number, i: number) => i !== out;
  return { x: x.filter(keep), y: y.filter(keep), weight: weight.filter(keep) };
};

describe('a smoothing spline', () => {
  test('gives a straight line back at any smoothing', () => {
    fc.assert(
      fc.property(
        someRows(2, 40),
        someSmoothing,
        fc.double({ min: -30, max: 30, noNaN: true }),
        fc.double({ min: -0.05, max: 0.05, noNaN: true }),
        (rows, smoothing, start, slope) => {
          const line = (at: number) => start + slope * at;
          const { curve, fitted } = smoothingSpline({ ...rows, y: rows.x.map(line) })(smoothing);
          rows.x.forEach((at, i) => {
            expectClose(fitted[i] ?? Number.NaN, line(at), 1e-9, `row ${i}`);
          });
          for (const at of [-500, 0, 333, curve.to + 250]) expectClose(curve.valueAt(at), line(at), 1e-8, `at ${at}`);
        },
      ),
    );
  });

  test('passes through every row as the smoothing goes to nothing', () => {
    fc.assert(
      fc.property(someRows(2, 30), (rows) => {
        const { fitted } = smoothingSpline(rows)(1e-9);
        rows.y.forEach((y, i) => {
          expectClose(fitted[i] ?? Number.NaN, y, 1e-9, `row ${i}`);
        });
      }),
    );
  });

  test('becomes the weighted straight line as the smoothing grows', () => {
    fc.assert(
      fc.property(someRows(3, 20), ({ x, y, weight }) => {
        const total = weight.reduce((sum, w) => sum + w, 0);
        const mean = (of: (i: number) => number) => weight.reduce((sum, w, i) => sum + w * of(i), 0) / total;
        const xi = (i: number) => x[i] ?? 0;
        const yi = (i: number) => y[i] ?? 0;
        const [mx, my] = [mean(xi), mean(yi)];
        const slope = mean((i) => (xi(i) - mx) * (yi(i) - my)) / mean((i) => (xi(i) - mx) ** 2);
        const { fitted, trace } = smoothingSpline({ x, y, weight })(1e16);
        x.forEach((at, i) => {
          expectClose(fitted[i] ?? Number.NaN, my + slope * (at - mx), 1e-3, `row ${i}`);
        });
        expectClose(trace, 2, 1e-3, 'trace');
      }),
    );
  });

  test('has the values and leverages of a dense second computation', () => {
    fc.assert(
      fc.property(someRows(3, 18), someSmoothing, (rows, asked) => {
        // Beyond this the dense computation is the worse of the two.
        const smoothing = Math.min(asked, 1e8);
        const hat = denseHat(rows, smoothing);
        const fit = smoothingSpline(rows)(smoothing);
        let trace = 0;
        rows.x.forEach((_, i) => {
          const value = rows.y.reduce((sum, y, j) => sum + entry(hat, i, j) * y, 0);
          expectClose(fit.fitted[i] ?? Number.NaN, value, 1e-7, `value of row ${i}`);
          expectClose(1 - (fit.freedom[i] ?? Number.NaN), entry(hat, i, i), 1e-8, `leverage of row ${i}`);
          trace += entry(hat, i, i);
        });
        expectClose(fit.trace, trace, 1e-7, 'trace');
      }),
    );
  });

  test('knows how far a row stands off the others as if it had been left out and the rest fitted again', () => {
    fc.assert(
      fc.property(someRows(4, 18), someSmoothing, (rows, smoothing) => {
        const { offOthers } = smoothingSpline(rows)(smoothing);
        rows.x.forEach((at, i) => {
          const others = smoothingSpline(without(rows, i))(smoothing).curve;
          const wanted = (rows.y[i] ?? 0) - others.valueAt(at);
          expectClose(
            offOthers[i] ?? Number.NaN,
            wanted,
            1e-6 * Math.max(1, Math.abs(wanted)),
            `row ${i} of ${rows.x.length}`,
          );
        });
      }),
    );
  });

  test('is smooth: values, slopes and second derivatives agree with each other and run on through the rows', () => {
    fc.assert(
      fc.property(someRows(3, 12), someSmoothing, (rows, smoothing) => {
        const { curve } = smoothingSpline(rows)(smoothing);
        const d = 1e-4;
        for (const at of rows.x.slice(1, -1)) {
          expectClose(curve.slopeAt(at - 1e-9), curve.slopeAt(at), 1e-7, `slope at ${at}`);
          expectClose(curve.secondAt(at - 1e-9), curve.secondAt(at), 1e-7, `second at ${at}`);
          const inside = at + 7;
          expectClose(
            (curve.valueAt(inside + d) - curve.valueAt(inside - d)) / (2 * d),
            curve.slopeAt(inside),
            1e-7,
            'slope',
          );
          expectClose(
            (curve.slopeAt(inside + d) - curve.slopeAt(inside - d)) / (2 * d),
            curve.secondAt(inside),
            1e-7,
            'second',
          );
        }
        expect(curve.secondAt(curve.from)).toBe(0);
        expect(curve.secondAt(curve.to)).toBe(0);
        expect(curve.slopeAt(curve.to + 100)).toBe(curve.slopeAt(curve.to));
      }),
    );
  });

  test('keeps 5,000 rows of a straight line straight, however stiff', () => {
    const x = Array.from({ length: 5000 }, (_, i) => i * 1.3);
    const y = x.map((at) => 3 + 0.002 * at);
    const fitAt = smoothingSpline({ x, y, weight: x.map(() => 1) });
    for (const smoothing of [1, 1e6, 1e12]) {
      const { fitted } = fitAt(smoothing);
      const off = Math.max(...y.map((value, i) => Math.abs(value - (fitted[i] ?? Number.NaN))));
      expectClose(off, 0, 1e-8, `farthest off at ${smoothing}`);
    }
  });

  test.each([
    [{ x: [1], y: [1], weight: [1] }, 'at least 2 rows, got 1'],
    [{ x: [1, 1], y: [1, 2], weight: [1, 1] }, 'row 1 is 1 after 1'],
    [{ x: [1, 2], y: [1, 2], weight: [1, 0] }, 'weight of row 1 must be positive, got 0'],
    [{ x: [1, 2], y: [Number.NaN, 2], weight: [1, 1] }, 'value of row 0 is NaN'],
  ])('refuses %j', (rows, message) => {
    expect(() => smoothingSpline(rows)).toThrow(message);
  });

  test.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])('refuses the smoothing %d', (smoothing) => {
    const fitAt = smoothingSpline({ x: [0, 1, 2], y: [0, 1, 0], weight: [1, 1, 1] });
    expect(() => fitAt(smoothing)).toThrow(`got ${smoothing}`);
  });
});
