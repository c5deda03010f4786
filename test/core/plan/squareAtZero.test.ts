import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { makePlan } from '../../../server/core/makePlan.ts';
import { isSquare, squareDeg, withSquare } from '../../../server/core/plan/squareAtZero.ts';
import { trueTiltDeg } from '../../../server/core/saw/readout.ts';
import { aJob } from '../../kit/aJob.ts';
import { demoPlan } from '../../kit/demoPlan.ts';
import { holds } from '../../kit/holds.ts';

const table = [
  [0.3, 0],
  [10.1, 10],
  [20.4, 20],
] as const;
const planOf = (readoutTable: readonly (readonly [number, number])[] = []) => {
  const made = makePlan(aJob({ saw: { readoutTable } }));
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value;
};

test('every call is shifted by what the readout shows at the square', () => {
  // Whole steps of the readout shift every call by themselves, worked by hand.
  const plan = planOf();
  const shifted = withSquare(plan, 1);
  expect(shifted.marks.map(({ callDeg }) => callDeg)).toEqual(plan.marks.map(({ callDeg }) => callDeg + 1));
  expect(shifted.saw).toMatchObject({ squareDeg: 1, readoutTable: [[1, 0]] });
  expect(shifted.sawTruth?.squareShowsDeg).toBe(1);
  expect(shifted.marks.map(({ sawnDeg }) => sawnDeg)).toEqual(plan.marks.map(({ sawnDeg }) => sawnDeg));
});

test('a small residual too: with the figure called, a readout so far off stands within half a step of the bevel', () => {
  holds(
    fc.property(fc.double({ min: -5, max: 5, noNaN: true }), fc.boolean(), (seenDeg, hasTable) => {
      const plan = planOf(hasTable ? table : []);
      const shifted = withSquare(plan, seenDeg);
      // The readout as it is: its zero has slipped by the residual.
      const slip = seenDeg - squareDeg(plan.saw);
      for (const { callDeg, sawnDeg } of shifted.marks) {
        const tilt = trueTiltDeg(callDeg - slip, plan.saw.readoutTable);
        expect(Math.abs(tilt - plan.hand * sawnDeg)).toBeLessThan(0.25 * 1.06 + 1e-6);
      }
      expect(squareDeg(shifted.saw)).toBeCloseTo(seenDeg, 9);
      expect(isSquare(shifted.saw, seenDeg)).toBe(true);
    }),
  );
});

test('what it shows already changes nothing, and a quarter step is the same figure', async () => {
  for (const plan of [planOf(), planOf(table), await demoPlan()]) {
    const same = withSquare(plan, squareDeg(plan.saw));
    expect(same.marks).toEqual(plan.marks);
    expect(isSquare(plan.saw, squareDeg(plan.saw) + plan.saw.readoutDeg / 4)).toBe(true);
    expect(isSquare(plan.saw, squareDeg(plan.saw) + plan.saw.readoutDeg / 2)).toBe(false);
  }
});
