/**
 * Sawn frames of a published hull: the Wigley parabolic hull (formula: read; derived from it: everything below) as a table of
 * offsets, planned, sawn by nothing but the plan (test/kit/sawnFrame.ts) and set up against the hull's own formula.
 */
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../server/core/plan/plan.ts';
import type { PlannedMark } from '../../server/core/rip/plannedMark.ts';
import { aJob } from '../kit/aJob.ts';
import { holds } from '../kit/holds.ts';
import { evenly, offsetTable } from '../kit/offsetTable.ts';
import { planned } from '../kit/planned.ts';
import { asPlanned, type Pieces, sawByPlan } from '../kit/sawnFrame.ts';
import { halfBreadthMm, keelDownMm } from './wigleySection.ts';

/** Half-breadth at x from the bow, aft, and z above the keel; midships is at 5 m. */
const hull = (x: number, z: number): number => halfBreadthMm(x - 5000, keelDownMm - z);
const table = offsetTable(evenly(0, 10_000, 21), (x) => evenly(0, keelDownMm, 21).map((z) => [hull(x, z), z] as const));

const WAYS = (['port', 'starboard'] as const).flatMap((side) =>
  (['forward', 'aft'] as const).flatMap((mouldedFace) =>
    (['left', 'right'] as const).flatMap((leans) =>
      (['fore', 'after'] as const).map((body) => ({ side, mouldedFace, leans, body })),
    ),
  ),
);
type Way = (typeof WAYS)[number];

function planAt(way: Way, atMm: number, sidingMm: number): Plan {
  return planned(
    aJob({
      frame: { side: way.side, mouldedFace: way.mouldedFace, sidingMm, mouldingMm: 75 },
      shape: {
        kind: 'offsets',
        file: 'offsets.csv',
        table,
        atMm,
        cantDeg: 0,
        plankingMm: 0,
        isAsDrawn: true,
        framesMm: [],
      },
      marks: { kind: 'spacing', spacingMm: 60 },
      saw: { leans: way.leans },
    }),
  );
}

/** How far the hull stands outside the sawn face, square to it, at this share of the siding from the moulded face. */
function gapMm(plan: Plan, atMm: number, pieces: Pieces, mark: PlannedMark, share: number): number {
  const { sidingMm, mouldedFace } = plan.frame;
  const [y, z] = [mark.yMm ?? Number.NaN, mark.zMm ?? Number.NaN];
  const [forward, aft] = pieces.outer(mark.stockMm);
  const grows = mouldedFace === 'forward' ? aft - forward : forward - aft;
  const slope = (hull(atMm, z + 0.01) - hull(atMm, z - 0.01)) / 0.02;
  const square = Math.hypot(1, slope);
  const x = atMm + (mouldedFace === 'forward' ? 1 : -1) * share * sidingMm;
  const at = { y: y + (share * grows) / square, z: z - (share * grows * slope) / square };
  const slopeX = (hull(x + 0.01, at.z) - hull(x - 0.01, at.z)) / 0.02;
  return (hull(x, at.z) - at.y) / Math.hypot(1, slope, slopeX);
}

/** The table's own points are 500 mm apart along the boat and 31 mm apart in height. */
const TABLE_MM = 0.03;

describe.each(WAYS)('$side, moulded face $mouldedFace, top leaning $leans, in the $body body', (way) => {
  test('both edges of the sawn face lie on the hull, its middle off it by the hollow that is stated; the wrong end first does not', () => {
    holds(
      fc.property(
        fc.double({ min: 900, max: 4000, noNaN: true }),
        fc.double({ min: 40, max: 90, noNaN: true }),
        (fromEndMm, sidingMm) => {
          const atMm = way.body === 'fore' ? fromEndMm : 10_000 - fromEndMm;
          const plan = planAt(way, atMm, sidingMm);
          const pieces = sawByPlan(plan, asPlanned(plan));
          const wrong = sawByPlan(plan, { ...asPlanned(plan), leads: plan.leads === 'head' ? 'heel' : 'head' });
          let worst = 0;
          for (const mark of plan.marks) {
            const gap = (share: number) => gapMm(plan, atMm, pieces, mark, share);
            expect(Math.abs(gap(0))).toBeLessThan(TABLE_MM);
            expect(Math.abs(gap(1))).toBeLessThan(TABLE_MM);
            expect(Math.abs(gap(0.5) - (mark.hollowMm ?? Number.NaN))).toBeLessThan(TABLE_MM);
            worst = Math.max(worst, Math.abs(gapMm(plan, atMm, wrong, mark, 1)));
          }
          expect(worst).toBeGreaterThan(1);
        },
      ),
      { numRuns: 2, endOnFailure: true },
    );
  });
});
