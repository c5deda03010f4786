import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  bareFigure,
  decimalsOf,
  fixedFigure,
  plusMinusFigure,
  signedPlusMinusFigure,
  withPlus,
  withTrueMinus,
} from '../../../server/core/figures/decimals.ts';
import { holds } from '../../kit/holds.ts';

test.each([
  [12, 1, '12.0', '12'],
  [-12.34, 1, '-12.3', '-12.3'],
  [0.125, 2, '0.13', '0.13'],
  [-0.125, 2, '-0.13', '-0.13'],
  // In binary it is less than it looks.
  [1.005, 2, '1.00', '1'],
  [2.5, 0, '3', '3'],
  [-0.04, 1, '0.0', '0'],
  [-0, 2, '0.00', '0'],
] as const)('%d to %d decimals is %s, or %s by itself', (size, decimals, fixed, bare) => {
  expect(fixedFigure(size, decimals)).toBe(fixed);
  expect(bareFigure(size, decimals)).toBe(bare);
});

test('a figure is plain, has no minus at a nought and is within half a step (property)', () => {
  const size = fc.oneof(
    fc.double({ min: -1e6, max: 1e6, noNaN: true }),
    fc.double({ min: -1e-5, max: 1e-5, noNaN: true }),
  );
  holds(
    fc.property(size, fc.integer({ min: 0, max: 6 }), (value, decimals) => {
      for (const figure of [fixedFigure(value, decimals), bareFigure(value, decimals)]) {
        expect(figure).toMatch(/^-?\d+(\.\d+)?$/);
        expect(figure).not.toMatch(/^-0(\.0*)?$/);
        expect(Math.abs(Number(figure) - value)).toBeLessThanOrEqual(0.5 * 10 ** -decimals + 1e-9);
      }
      expect(fixedFigure(value, decimals).split('.')[1]?.length ?? 0).toBe(decimals);
      expect(fixedFigure(-value, decimals).replace('-', '')).toBe(fixedFigure(value, decimals).replace('-', ''));
    }),
  );
});

test('a limit is told down, a need up', () => {
  expect([fixedFigure(2.99, 1, 'at most'), fixedFigure(2.91, 1, 'at least')]).toEqual(['2.9', '3.0']);
});

test('signs: a plus above nought, a true minus below it, none at it', () => {
  expect(['0.25', '-0.25', '0.00'].map(withPlus)).toEqual(['+0.25', '-0.25', '0.00']);
  expect(['0.25', '-0.25', '-0.00', '-4-2-5+'].map(withTrueMinus)).toEqual(['0.25', '−0.25', '0.00', '−4-2-5+']);
});

test('a step has as many decimals as it is written with, 3 at most', () => {
  expect([1, 0.5, 0.05, 0.125, 0.1 + 0.2, 0.0625].map(decimalsOf)).toEqual([0, 1, 2, 3, 1, 3]);
});

test('what an estimate may be off by stands beside it', () => {
  expect(plusMinusFigure(0.3, 0.1, 2)).toBe('0.3 ± 0.10');
  expect([0.25, -0.25, 0.001].map((deg) => signedPlusMinusFigure(deg, 0.1, 2))).toEqual([
    '+0.25 ± 0.10',
    '-0.25 ± 0.10',
    '0 ± 0.10',
  ]);
});
