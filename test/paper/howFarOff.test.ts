/** How far the strip may lie off: held against the tilt along the stock itself, place by place. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { interpolate } from '../../server/core/numeric/interpolate.ts';
import { makeSetup } from '../../server/core/run/makeSetup.ts';
import { stripAllowance } from '../../server/paper/strip/howFarOff.ts';
import { demoPlan } from '../kit/demoPlan.ts';
import { planFrom, someRecipes } from './someJobs.ts';

test('a strip that lies off by no more leaves every bevel within half a step of the readout', () => {
  fc.assert(
    fc.property(someRecipes, fc.constantFrom(-1, 1), (recipe, way) => {
      const plan = planFrom(recipe);
      const { mayBeOffMm } = stripAllowance(plan);
      const { positionsMm, tiltsDeg } = makeSetup(plan, 'pair', {}).profile;
      const last = positionsMm.at(-1) ?? 0;
      const off = Math.min(mayBeOffMm ?? last, last) * way;
      for (let part = 0; part <= 50; part += 1) {
        const at = (last * part) / 50;
        if (at + off < 0 || at + off > last) continue;
        const wrong = interpolate(positionsMm, tiltsDeg, at + off) - interpolate(positionsMm, tiltsDeg, at);
        expect(Math.abs(wrong)).toBeLessThanOrEqual((plan.saw.readoutDeg / 2) * 1.02 + 1e-9);
      }
    }),
    { numRuns: 40 },
  );
});

test('and hardly more would do it: the figure is no idle caution', async () => {
  const plan = await demoPlan();
  const { mayBeOffMm } = stripAllowance(plan);
  const { positionsMm, tiltsDeg } = makeSetup(plan, 'pair', {}).profile;
  const off = (mayBeOffMm ?? 0) * 1.2;
  const worst = positionsMm.map((at, index) =>
    Math.abs(interpolate(positionsMm, tiltsDeg, at + off) - (tiltsDeg[index] ?? 0)),
  );
  expect(Math.max(...worst)).toBeGreaterThan(plan.saw.readoutDeg / 2);
});

test('beside the kerf there is what the edges that are up leave', async () => {
  const plan = await demoPlan();
  // The demo's stock lies with its aft edge up.
  expect(plan.rip?.way.upEdge).toBe('aft');
  const least = (edges: 'outerEdgesMm' | 'innerEdgesMm') => Math.min(...plan.marks.map((mark) => mark[edges][1]));
  expect(stripAllowance(plan).besideMm).toEqual([least('outerEdgesMm'), least('innerEdgesMm')]);
});
