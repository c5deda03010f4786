import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { estimateOf, type HandEstimate, nineInTen, pooled } from '../../../../server/core/hand/learn/estimate.ts';
import { expectClose } from '../../../kit/close.ts';
import { holds } from '../../../kit/holds.ts';

const times = (...values: readonly number[]) => values.map((value) => ({ value, error: 0.01 }));
const estimate: fc.Arbitrary<HandEstimate> = fc.record({
  median: fc.double({ min: 0.15, max: 2, noNaN: true }),
  error: fc.double({ min: 0.005, max: 0.2, noNaN: true }),
  spread: fc.double({ min: 0, max: 0.5, noNaN: true }),
  turns: fc.integer({ min: 5, max: 80 }),
});
const some = fc.array(estimate, { minLength: 1, maxLength: 6 });

describe('an estimate of times', () => {
  it('is their middle, and an odd one does not move it', () => {
    const plain = estimateOf(times(0.3, 0.33, 0.35, 0.37, 0.41));
    const odd = estimateOf(times(0.3, 0.33, 0.35, 0.37, 0.41, 2.4));
    expectClose(plain?.median ?? 0, 0.35, 0.005, 'middle');
    expect(odd).toEqual(plain);
  });

  it('takes out of the spread what the measuring blurs', () => {
    const sharp = estimateOf(times(0.3, 0.33, 0.35, 0.37, 0.41));
    const blurred = estimateOf([0.3, 0.33, 0.35, 0.37, 0.41].map((value) => ({ value, error: 0.06 })));
    expect(sharp?.spread).toBeGreaterThan(0.1);
    expect(blurred?.spread).toBe(0);
    expect(blurred?.error).toBeGreaterThan(sharp?.error ?? 9);
  });

  it('is not given of fewer than five', () => {
    expect(estimateOf(times(0.3, 0.33, 0.35, 0.37))).toBeNull();
  });
});

describe('the figure to plan by', () => {
  it('is on the safe side of the middle, and the farther the less is known', () => {
    holds(
      fc.property(estimate, (one) => {
        expect(nineInTen(one, 'slow')).toBeGreaterThan(one.median);
        expect(nineInTen(one, 'quick')).toBeLessThan(one.median);
        expect(nineInTen({ ...one, turns: 5 }, 'slow')).toBeGreaterThanOrEqual(nineInTen(one, 'slow'));
        expect(nineInTen({ ...one, error: 2 * one.error }, 'slow')).toBeGreaterThan(nineInTen(one, 'slow'));
      }),
    );
  });

  /** Derived: exp(1.2816 x 0.2) of the median when nothing else is unsure. */
  it('comes to the ninth tenth of a lognormal', () => {
    const sure = { median: 0.35, error: 1e-6, spread: 0.2, turns: 100_000 };
    expectClose(nineInTen(sure, 'slow'), 0.35 * Math.exp(0.2 * 1.28155), 1e-4, 'reaction');
  });
});

describe('several runs of one person', () => {
  it('come to what one run tells, if there is one', () => {
    holds(
      fc.property(estimate, (one) => {
        const alone = pooled([one]);
        expect(alone?.turns).toBe(one.turns);
        for (const field of ['median', 'error', 'spread'] as const)
          expectClose(alone?.[field] ?? 0, one[field], 1e-9, field);
      }),
    );
    expect(pooled([])).toBeNull();
  });

  it('are the same in any order, and lie between the least and the greatest', () => {
    holds(
      fc.property(some, (runs) => {
        const [there, back] = [pooled(runs), pooled(runs.toReversed())];
        expectClose(there?.median ?? 0, back?.median ?? 9, 1e-9, 'middle');
        expectClose(there?.error ?? 0, back?.error ?? 9, 1e-9, 'error');
        const medians = runs.map(({ median }) => median);
        expect(there?.median).toBeGreaterThanOrEqual(Math.min(...medians) - 1e-9);
        expect(there?.median).toBeLessThanOrEqual(Math.max(...medians) + 1e-9);
      }),
    );
  });

  it('that agree are surer by the root of their number; that do not are less sure', () => {
    const one = { median: 0.4, error: 0.02, spread: 0.2, turns: 12 };
    expectClose(pooled([one, one, one, one])?.error ?? 0, 0.01, 1e-9, 'of four');
    const apart = pooled([one, { ...one, median: 0.6, error: 0.03 }]);
    expect(apart?.error).toBeGreaterThan(0.05);
    expect(apart?.turns).toBe(24);
  });
});
