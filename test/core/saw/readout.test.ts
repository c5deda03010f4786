import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { toReadoutStep } from '../../../server/core/figures/rounding.ts';
import { shownDeg, trueTiltDeg } from '../../../server/core/saw/readout.ts';
import { holds } from '../../kit/holds.ts';

const TABLE = [
  [0, 0.2],
  [10, 10.1],
  [20, 20.3],
] as const;

describe('the readout table', () => {
  test('is a straight line between two pairs', () => {
    expect(shownDeg(5.15, TABLE)).toBeCloseTo(5, 12);
    expect(trueTiltDeg(15, TABLE)).toBeCloseTo(15.2, 12);
  });

  test('is exact at its pairs, and keeps the end offset beyond them', () => {
    for (const [shown, real] of TABLE) expect(shownDeg(real, TABLE)).toBeCloseTo(shown, 12);
    expect(shownDeg(25.3, TABLE)).toBeCloseTo(25, 12);
    expect(shownDeg(-3, TABLE)).toBeCloseTo(-3.2, 12);
  });

  test('tells the truth when it is empty', () => {
    expect(shownDeg(12.34, [])).toBe(12.34);
  });

  test('there and back is where it began, for any rising table', () => {
    const pair = fc.tuple(fc.double({ min: 0.1, max: 9, noNaN: true }), fc.double({ min: 0.1, max: 9, noNaN: true }));
    holds(
      fc.property(fc.array(pair, { maxLength: 8 }), fc.double({ min: -80, max: 80, noNaN: true }), (steps, deg) => {
        let at: readonly [number, number] = [-20, -20];
        const table = steps.map(([shown, real]) => {
          at = [at[0] + shown, at[1] + real];
          return at;
        });
        expect(trueTiltDeg(shownDeg(deg, table), table)).toBeCloseTo(deg, 8);
      }),
    );
  });
});

describe('the readout step', () => {
  test('halves go away from zero, for both hands alike', () => {
    expect(toReadoutStep(12.25, 0.5)).toBe(12.5);
    expect(toReadoutStep(-12.25, 0.5)).toBe(-12.5);
    expect(toReadoutStep(12.24, 0.5)).toBe(12);
  });

  test('gives the figure that the readout shows, without the dust of binary fractions', () => {
    expect(toReadoutStep(0.3, 0.1)).toBe(0.3);
    expect(toReadoutStep(1.1, 0.1)).toBe(1.1);
    expect(toReadoutStep(0.15, 0.1)).toBe(0.2);
  });

  test('never -0, never more than half a step away', () => {
    holds(
      fc.property(
        fc.double({ min: -60, max: 60, noNaN: true }),
        fc.constantFrom(0.05, 0.1, 0.2, 0.25, 0.5, 1),
        (deg, step) => {
          const shown = toReadoutStep(deg, step);
          expect(Object.is(shown, -0)).toBe(false);
          expect(Math.abs(shown - deg)).toBeLessThanOrEqual(step / 2 + 1e-8);
        },
      ),
    );
  });
});
