import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { makePlan } from '../../../server/core/makePlan.ts';
import { draws } from '../../../server/core/numeric/draws.ts';
import { fitted } from '../../../server/core/numeric/leastSquares.ts';
import type { PieceRow } from '../../../server/core/sawn/bestShift.ts';
import { correctionOf, type TrialCorrection } from '../../../server/core/sawn/correction.ts';
import { sawnAlong, trialOf } from '../../../server/core/sawn/trial.ts';
import { loadDemo } from '../../../server/demo/loadDemo.ts';
import { parseJob } from '../../../server/wire/job/parseJob.ts';
import { trialJob } from '../../../server/wire/job/trialJob.ts';
import { holds } from '../../kit/holds.ts';

function parsed({ job, files }: { readonly job: unknown; readonly files: Readonly<Record<string, string>> }) {
  const read = parseJob(job, files);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const made = makePlan(read.value);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return { job: read.value, plan: made.value };
}
const demo = await loadDemo();
const { job, plan } = parsed(demo);

describe('a trial', () => {
  test('is a job of its own that saws the same tilts at the same marks, straight, lying the same way', () => {
    for (const whole of [false, true]) {
      const trial = trialOf(plan, { whole });
      const { plan: own } = parsed(trialJob(demo.job, job, trial));
      expect(own.title).toContain('Trial');
      expect(own).toMatchObject({ leads: plan.leads, hand: plan.hand, thickEdge: plan.thickEdge, leadsIsSure: true });
      expect(own.marks.length).toBe(trial.marks.length);
      const start = plan.marks.find(({ mark }) => mark === trial.fromMark);
      for (const [i, { ofMark }] of trial.marks.entries()) {
        const of = plan.marks.find(({ mark }) => mark === ofMark);
        const mark = own.marks[i];
        expect(mark?.stockMm).toBeCloseTo((of?.stockMm ?? 0) - (start?.stockMm ?? 0), 2);
        expect(mark?.sawnDeg).toBeCloseTo(of?.sawnDeg ?? Number.NaN, 1);
        expect([mark?.yMm, mark?.radiusMm]).toEqual([null, null]);
      }
    }
  });

  test('is the short stretch over which the tilt is turned most', () => {
    const trial = trialOf(plan, { whole: false });
    expect(trial.lengthMm).toBeGreaterThanOrEqual(560);
    expect(trial.lengthMm).toBeLessThan(1000);
    const turned = (from: number, to: number): number =>
      plan.marks
        .slice(from, to)
        .reduce((sum, { sawnDeg }, i) => sum + Math.abs((plan.marks[from + i + 1]?.sawnDeg ?? 0) - sawnDeg), 0);
    const span = trial.toMark - trial.fromMark;
    for (let from = 0; from + span < plan.marks.length; from += 1)
      expect(turned(from, from + span)).toBeLessThanOrEqual(turned(trial.fromMark - 1, trial.toMark - 1) + 1e-9);
    expect(trialOf(plan, { whole: true })).toMatchObject({ fromMark: 1, toMark: plan.marks.length });
    // A mark's line and the middles between.
    expect(trial.measureAt.length).toBe(2 * trial.marks.length - 1);
  });
});

const sawnDeg = sawnAlong(plan);
const lengthMm = plan.marks.at(-1)?.stockMm ?? 0;

/** What a trial over the whole frame measures where the hand was late and the readout off, in the order of the run. */
function told(lateMm: number, offDeg: (deg: number) => number, errorDeg: number, seed = 1): TrialCorrection {
  const draw = draws(seed);
  const wantedDeg = (mm: number): number => sawnDeg(lengthMm - mm);
  const rows: PieceRow[] = Array.from({ length: 31 }, (_, i) => {
    const alongMm = (lengthMm * i) / 30;
    const had = wantedDeg(alongMm - lateMm);
    return { alongMm, bevelDeg: had + offDeg(had) + errorDeg * draw.normal(), weight: 1 };
  });
  const found = correctionOf({
    rows,
    wantedDeg,
    fromMm: 0,
    toMm: lengthMm,
    hand: 1,
    readoutTable: [],
    errorDeg: Math.max(errorDeg, 1e-4),
  });
  if (found === undefined) throw new Error('rows enough');
  return found;
}

describe('what a measured trial tells', () => {
  test('lateness and readout are told apart, each within four of its errors', () => {
    holds(
      fc.property(
        fc.integer({ min: -40, max: 60 }),
        fc.double({ min: -1, max: 1, noNaN: true }),
        fc.double({ min: -0.06, max: 0.06, noNaN: true }),
        fc.integer({ min: 1, max: 1e6 }),
        (lateMm, offset, slope, seed) => {
          const found = told(lateMm, (deg) => offset + slope * deg, 0.2, seed);
          const late = found.late ?? { value: 0, error: (found.noticeable.mm ?? 0) / 2 };
          expect(Math.abs(late.value - lateMm)).toBeLessThan(4.5 * late.error + 4);
          for (const { tiltDeg, deg } of found.off ?? [])
            expect(Math.abs(deg.value - offset - slope * tiltDeg)).toBeLessThan(4.5 * deg.error + 0.15);
        },
      ),
      { numRuns: 60 },
    );
  });

  test('exactly, where nothing is measured wrong; a late hand alone asks for no correction of the readout', () => {
    const found = told(25, () => 0, 0);
    expect(found.late?.value).toBeCloseTo(25, 1);
    expect(found.off).toBeNull();
    expect(found.rows).toEqual([]);
    const off = told(0, (deg) => 0.5 + 0.02 * deg, 0);
    expect(off.late).toBeNull();
    expect(
      off.rows.map(([shown, deg]) => deg - shown - 0.5 - 0.02 * shown).every((left) => Math.abs(left) < 0.02),
    ).toBe(true);
  });

  test('over a stretch where both look alike neither is claimed that is not so', () => {
    const trial = trialOf(plan, { whole: false });
    const startMm = plan.marks.find(({ mark }) => mark === trial.fromMark)?.stockMm ?? 0;
    const wantedDeg = (mm: number): number => sawnDeg(startMm + trial.lengthMm - mm);
    let unsplit = 0;
    holds(
      fc.property(
        fc.integer({ min: -30, max: 40 }),
        fc.double({ min: -0.8, max: 0.8, noNaN: true }),
        fc.integer({ min: 1, max: 1e6 }),
        (lateMm, offset, seed) => {
          const draw = draws(seed);
          const rows = trial.measureAt.map(({ alongMm }) => ({
            alongMm,
            bevelDeg: wantedDeg(alongMm - lateMm) + offset + 0.15 * draw.normal(),
            weight: 1,
          }));
          const asked = {
            rows,
            wantedDeg,
            fromMm: 0,
            toMm: trial.lengthMm,
            hand: 1,
            readoutTable: [],
            errorDeg: 0.15,
          } as const;
          const found = correctionOf(asked);
          if (found?.either != null) unsplit += 1;
          if (found?.late != null) expect(Math.abs(found.late.value - lateMm)).toBeLessThan(4.5 * found.late.error + 5);
          for (const { deg } of found?.off ?? [])
            expect(Math.abs(deg.value - offset)).toBeLessThan(4.5 * deg.error + 0.1);
        },
      ),
      { numRuns: 60 },
    );
    expect(unsplit).toBeGreaterThan(0);
  });

  test('nothing at all is taken for nothing, with what would not have been noticed', () => {
    const found = told(0, () => 0, 0.25, 7);
    expect(found.noticeable.mm).toBeGreaterThan(3);
    expect(found.noticeable.deg).toBeGreaterThan((2 * 0.25) / Math.sqrt(31) / 1.1);
    expect(found).toMatchObject({ late: null, off: null, either: null, rows: [] });
  });

  test('a place that is written a little beyond the last line is at the line', () => {
    const rows = [0, 300, 604].map((alongMm) => ({ alongMm, bevelDeg: sawnDeg(alongMm), weight: 1 }));
    const asked = {
      rows,
      wantedDeg: sawnDeg,
      fromMm: 0,
      toMm: 599.9,
      hand: 1,
      readoutTable: [],
      errorDeg: 0.5,
    } as const;
    expect(correctionOf(asked)?.measured).toBe(3);
  });

  test('two rows tell nothing', () => {
    const asked = { wantedDeg: sawnDeg, fromMm: 0, toMm: 10, hand: 1, readoutTable: [], errorDeg: 0.5 } as const;
    expect(
      correctionOf({
        ...asked,
        rows: [
          { alongMm: 0, bevelDeg: 1, weight: 1 },
          { alongMm: 9, bevelDeg: 1, weight: 1 },
        ],
      }),
    ).toBeUndefined();
  });
});

describe('least squares', () => {
  test('a straight line through (1, 1), (2, 3), (3, 4): by hand 1.5 x - 1/3, covariance of slope 1/2', () => {
    const { values, covariance, leftSquares } = fitted(
      [
        [1, 1],
        [1, 2],
        [1, 3],
      ],
      [1, 3, 4],
      [1, 1, 1],
    );
    expect(values[0]).toBeCloseTo(-1 / 3, 12);
    expect(values[1]).toBeCloseTo(1.5, 12);
    expect(covariance[1]?.[1]).toBeCloseTo(0.5, 12);
    expect(leftSquares).toBeCloseTo(1 / 6, 12);
  });

  test('a row twice is a row of twice the weight, and what cannot be told apart is not', () => {
    const twice = fitted(
      [
        [1, 1],
        [1, 2],
        [1, 3],
        [1, 3],
      ],
      [1, 3, 4, 4],
      [1, 1, 1, 1],
    );
    expect(
      fitted(
        [
          [1, 1],
          [1, 2],
          [1, 3],
        ],
        [1, 3, 4],
        [1, 1, 2],
      ),
    ).toEqual({ ...twice });
    expect(
      fitted(
        [
          [1, 2],
          [1, 2],
          [1, 2],
        ],
        [1, 1, 1],
        [1, 1, 1],
      ).covariance[0]?.[0],
    ).toBe(Number.POSITIVE_INFINITY);
  });
});

test('the trial saws what the plan’s marks ask', () => {
  for (const { stockMm, sawnDeg: deg } of plan.marks) expect(sawnDeg(stockMm)).toBeCloseTo(deg, 6);
});
