/** All frames of a boat in one go. */
import { describe, expect, test } from 'vitest';
import { type Boat, wholeBoat } from '../../../server/core/frame/wholeBoat.ts';
import type { FromOffsets, Job } from '../../../server/core/job.ts';
import { makePlan } from '../../../server/core/makePlan.ts';
import { aJob } from '../../kit/aJob.ts';
import { expectClose } from '../../kit/close.ts';
import { evenly } from '../../kit/offsetTable.ts';
import { offsetsOf, randomHull } from '../hull/analyticHull.ts';
import { chance } from './fairFrames.ts';

const hull = randomHull(chance(303));
const LENGTH_MM = hull.traits.lengthMm;
const shape: FromOffsets = {
  kind: 'offsets',
  file: 'offsets.csv',
  table: offsetsOf(hull, 21, 15, 1),
  atMm: LENGTH_MM / 2,
  cantDeg: 0,
  plankingMm: 18,
  isAsDrawn: false,
  framesMm: [],
};
const job = aJob({ shape, marks: { kind: 'spacing', spacingMm: 100 }, saw: { tiltDeg: [-45, 45] } });
function boatOf(framesMm: readonly number[], other: Job = job): Boat {
  const made = wholeBoat(other, shape, framesMm, 'shape.frames');
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value;
}

describe('a whole boat', () => {
  test('gives each frame what a plan of it alone gives', () => {
    const framesMm = evenly(0.15 * LENGTH_MM, 0.85 * LENGTH_MM, 6);
    const boat = boatOf(framesMm);
    boat.frames.forEach((frame, i) => {
      const made = makePlan({ ...job, shape: { ...shape, atMm: framesMm[i] ?? 0 } });
      if (!made.ok) throw new Error(JSON.stringify(made.problems));
      const plan = made.value;
      expect(frame.marks).toHaveLength(plan.marks.length);
      expectClose(frame.girthMm, plan.girthMm, 1e-9, 'girth');
      expectClose(frame.runOffAtHeadMm, plan.offsets?.runOff.atHeadMm ?? Number.NaN, 1e-9, 'run-off');
      plan.marks.forEach((mark, k) => {
        expectClose(frame.marks[k]?.sawnDeg ?? Number.NaN, mark.sawnDeg, 1e-9, `sawn at mark ${mark.mark}`);
        expectClose(frame.marks[k]?.bevelDeg ?? Number.NaN, mark.bevelDeg, 1e-9, `bevel at mark ${mark.mark}`);
        expectClose(frame.marks[k]?.zMm ?? Number.NaN, mark.zMm ?? Number.NaN, 1e-9, `height of mark ${mark.mark}`);
      });
    });
  });

  test('tells its fairing and its spacing once', () => {
    const boat = boatOf([LENGTH_MM / 3]);
    expect(boat.spacingMm).toBe(100);
    expect(boat.fairing.toleranceMm).toBe(0.5);
    expect(boat.fairing.moved.length).toBeGreaterThan(0);
    expect(boat.plankingMm).toBe(18);
  });

  test('girths that are given stand for every frame, as far as it reaches', () => {
    const [least, most] = boatOf([0.05 * LENGTH_MM, LENGTH_MM / 2]).frames.map(({ girthMm }) => girthMm);
    const girthsMm = [0, 200, ((least ?? 0) + (most ?? 0)) / 2];
    const boat = boatOf([0.05 * LENGTH_MM, LENGTH_MM / 2], { ...job, marks: { kind: 'at', girthsMm } });
    expect(boat.frames.map(({ marks }) => marks.length)).toEqual([2, 3]);
    expect(boat.spacingMm).toBeNull();
  });

  test('a frame beyond the stations is told with its number in the list', () => {
    const made = wholeBoat(job, shape, [LENGTH_MM / 2, LENGTH_MM + 40], 'shape.frames');
    expect(made.ok ? [] : made.problems).toMatchObject([{ code: 'out-of-range', at: { field: 'shape.frames[1]' } }]);
  });
});
