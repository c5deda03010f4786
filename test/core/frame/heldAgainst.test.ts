/** A frame picked up on a boat, held against the frame of the offsets and its neighbours. */
import { describe, expect, test } from 'vitest';
import type { Job } from '../../../server/core/job.ts';
import { makePlan } from '../../../server/core/makePlan.ts';
import type { Plan } from '../../../server/core/plan/plan.ts';
import { aJob } from '../../kit/aJob.ts';
import { expectClose } from '../../kit/close.ts';
import { evenly } from '../../kit/offsetTable.ts';
import { offsetsOf, randomHull } from '../hull/analyticHull.ts';
import { chance, normal } from './fairFrames.ts';

const hull = randomHull(chance(808));
const LENGTH_MM = hull.traits.lengthMm;
const table = offsetsOf(hull, 21, 15, 1);
const AT_MM = 0.3 * LENGTH_MM;
const SPACING_MM = 450;

/** Bevels picked up at `trueMm` on the hull itself, with errors of half a degree, said to be the frame at `saidMm`. */
function pickedUp(trueMm: number, saidMm: number, turnDeg = 0): Plan {
  const draw = chance(12);
  const rows = hull.frame(trueMm, 13).map(({ girthMm, bevelDeg }) => ({
    girthMm,
    bevelDeg: Math.round((bevelDeg + turnDeg + 0.3 * normal(draw)) * 2) / 2,
    weight: 1,
  }));
  const against = {
    kind: 'offsets',
    file: 'offsets.csv',
    table,
    atMm: saidMm,
    cantDeg: 0,
    plankingMm: 0,
    isAsDrawn: false,
    framesMm: evenly(saidMm - 2 * SPACING_MM, saidMm + 2 * SPACING_MM, 5),
  } as const;
  const shape: Job['shape'] = { kind: 'pick-up', file: 'pickup.csv', rows, errorDeg: 0.5, against };
  const made = makePlan(aJob({ shape, saw: { tiltDeg: [-45, 45] } }));
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value;
}
const againstOf = (plan: Plan) => {
  if (plan.against === undefined) throw new Error('nothing was held against the pick-up');
  return plan.against;
};
const apart = (plan: Plan): string | undefined =>
  plan.warnings.find(({ code }) => code === 'apart-from-offsets')?.message;

describe('a picked-up frame beside the offsets', () => {
  test('of the right place: as near as it was measured, and the offsets come nearest there', () => {
    const plan = pickedUp(AT_MM, AT_MM);
    const against = againstOf(plan);
    expect(against.rmsDeg).toBeLessThan(0.4);
    expectClose(against.meanDeg, 0, 0.3, 'mean');
    expectClose(against.bestAtMm, AT_MM, 150, 'best place');
    expectClose(against.girthMm, plan.girthMm, 2, 'girth');
    expect(apart(plan)).toBeUndefined();
    for (const row of against.rows) expectClose(row.pickedUpDeg, row.offsetsDeg, 1.3, `girth ${row.girthMm}`);
  });

  test('its neighbours fore and aft stand farther off, each by its own figure', () => {
    const { neighbours, rmsDeg } = againstOf(pickedUp(AT_MM, AT_MM));
    expect(neighbours.map(({ atMm }) => Math.round(atMm - AT_MM))).toEqual([-SPACING_MM, SPACING_MM]);
    for (const neighbour of neighbours) expect(neighbour.rmsDeg).toBeGreaterThan(rmsDeg);
  });

  test('of the next frame but one: it is asked whether it is the right frame', () => {
    const plan = pickedUp(AT_MM + SPACING_MM, AT_MM);
    expect(againstOf(plan).rmsDeg).toBeGreaterThan(1);
    expect(apart(plan)).toContain('is it the right frame?');
    expect(apart(plan)).toContain('The boat as built governs.');
  });

  test('a bevel gauge that is two degrees out shows in the mean', () => {
    const plan = pickedUp(AT_MM, AT_MM, 2);
    expectClose(againstOf(plan).meanDeg, 2, 0.3, 'mean');
    expect(apart(plan)).toContain('stand 2.');
  });

  test('the plan is sawn to what was picked up: the offsets only stand beside it', () => {
    const plan = pickedUp(AT_MM, AT_MM, 2);
    expect(plan.offsets).toBeUndefined();
    expect(plan.pickedUp).toHaveLength(13);
  });
});
