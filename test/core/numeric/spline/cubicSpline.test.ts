import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cubicSpline } from '../../../../server/core/numeric/spline/cubicSpline.ts';
import { expectClose } from '../../../kit/close.ts';
import { someRows } from '../someRows.ts';

describe('a cubic spline through points', () => {
  test('passes through them', () => {
    fc.assert(
      fc.property(someRows(2, 25), ({ x, y }) => {
        const curve = cubicSpline(x, y);
        x.forEach((at, i) => {
          expectClose(curve.valueAt(at), y[i] ?? Number.NaN, 1e-9, `point ${i}`);
        });
      }),
    );
  });

  test('gives any cubic back from four points on, a parabola from three, a line from two', () => {
    const coefficient = fc.double({ min: -1, max: 1, noNaN: true });
    fc.assert(
      fc.property(
        someRows(2, 12),
        fc.tuple(coefficient, coefficient, coefficient, coefficient),
        ({ x, weight }, [a, b, c, d]) => {
          const n = x.length;
          const scale = (at: number) => at / 1000;
          const [third, second] = [n > 3 ? d : 0, n > 2 ? c : 0];
          const f = (at: number) => a + b * scale(at) + second * scale(at) ** 2 + third * scale(at) ** 3;
          const curve = cubicSpline(x, x.map(f));
          const at = curve.from + ((weight[0] ?? 0) / 10) * (curve.to - curve.from);
          const greatest = Math.max(1, scale(curve.to) ** 3);
          expectClose(curve.valueAt(at), f(at), 1e-9 * greatest, `value of ${n} points`);
          expectClose(curve.secondAt(at), (2 * second + 6 * third * scale(at)) / 1e6, 1e-9 * greatest, 'second');
        },
      ),
    );
  });

  test('runs on straight beyond its ends', () => {
    const curve = cubicSpline([0, 1, 2, 3], [0, 1, 4, 9]);
    expectClose(curve.valueAt(5), 9 + 2 * 6, 1e-12, 'beyond the head');
    expectClose(curve.valueAt(-2), 0, 1e-12, 'beyond the heel');
    expect(curve.secondAt(5)).toBe(0);
  });

  test('refuses knots that do not rise', () => {
    expect(() => cubicSpline([0, 2, 2], [0, 1, 2])).toThrow('2 after 2');
  });
});
