import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { rounded, roundedDown, toReadoutStep, toStep } from '../../../server/core/figures/rounding.ts';
import { holds } from '../../kit/holds.ts';

const HOWS = ['nearest', 'at least', 'at most'] as const;
const someStep = fc.constantFrom(1, 0.5, 0.25, 0.1, 0.05, 0.01, 25.4 / 32);

test.each([
  [0.27, 0.1, [0.3, 0.3, 0.2]],
  [0.3, 0.1, [0.3, 0.3, 0.3]],
  [-0.27, 0.1, [-0.3, -0.2, -0.3]],
  [0.75, 0.5, [1, 1, 0.5]],
  [-0.01, 0.5, [0, 0, -0.5]],
  [0.1 + 0.2, 0.1, [0.3, 0.3, 0.3]],
] as const)('%d in steps of %d', (size, step, found) =>
  expect(HOWS.map((how) => toStep(size, step, how))).toEqual(found),
);

test('a halfway size goes up, on a readout away from zero', () => {
  expect([toStep(0.25, 0.5, 'nearest'), toStep(-0.25, 0.5, 'nearest')]).toEqual([0.5, 0]);
  expect([toReadoutStep(0.25, 0.5), toReadoutStep(-0.25, 0.5)]).toEqual([0.5, -0.5]);
});

test('what is rounded is within a step on the side that was asked for, and never -0 (property)', () => {
  holds(
    fc.property(fc.double({ min: -9000, max: 9000, noNaN: true }), someStep, (size, step) => {
      const [nearest, least, most] = HOWS.map((how) => toStep(size, step, how)) as [number, number, number];
      const hair = 2e-6 * step;
      expect(Math.abs(nearest - size)).toBeLessThanOrEqual(step / 2 + hair);
      expect(least - size).toBeGreaterThanOrEqual(-hair);
      expect(least - size).toBeLessThan(step + hair);
      expect(size - most).toBeGreaterThanOrEqual(-hair);
      expect(size - most).toBeLessThan(step + hair);
      for (const figure of [nearest, least, most, rounded(size, 2, 'nearest'), toReadoutStep(size, step)])
        expect(Object.is(figure, -0)).toBe(false);
    }),
  );
});

test('a limit of the feed is rounded down to what is worth telling, and never to nothing', () => {
  expect([3.519, 3.51, 0.1, 0.0987, 0.00123].map(roundedDown)).toEqual([3.51, 3.51, 0.1, 0.098, 0.0012]);
});
