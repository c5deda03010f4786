import { describe, expect, test } from 'vitest';
import { gaussLegendre } from '../../../server/core/numeric/gaussLegendre.ts';
import { expectClose } from '../../kit/close.ts';

describe('Gauss-Legendre', () => {
  test.each(Array.from({ length: 16 }, (_, power) => power))('integrates the power %d exactly', (power) => {
    // A generous `within`: the first two halves are taken as they are.
    expectClose(
      gaussLegendre((x) => x ** power, -1, 3, 1e9),
      (3 ** (power + 1) - (-1) ** (power + 1)) / (power + 1),
      1e-9 * 3 ** power,
    );
  });

  test('halves until a corner is met too', () => {
    expectClose(
      gaussLegendre((x) => Math.abs(x - 0.3), 0, 1, 1e-10),
      (0.3 ** 2 + 0.7 ** 2) / 2,
      1e-9,
      'corner',
    );
    expectClose(gaussLegendre(Math.sqrt, 0, 1, 1e-9), 2 / 3, 1e-8, 'square root');
  });

  test('is 0 over nothing', () => {
    expect(gaussLegendre(Math.exp, 2, 2, 1e-9)).toBe(0);
  });
});
