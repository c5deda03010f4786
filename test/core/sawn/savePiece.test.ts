import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { makePlan } from '../../../server/core/makePlan.ts';
import { draws } from '../../../server/core/numeric/draws.ts';
import type { Plan } from '../../../server/core/plan/plan.ts';
import type { PieceRow } from '../../../server/core/sawn/bestShift.ts';
import { planingAt } from '../../../server/core/sawn/plane.ts';
import { savePiece } from '../../../server/core/sawn/savePiece.ts';
import { askedOf } from '../../../server/core/sawn/wantedEdges.ts';
import { aJob, picked } from '../../kit/aJob.ts';
import { cases } from '../../kit/cases.ts';
import { holds } from '../../kit/holds.ts';

const LENGTH_MM = 1800;
/** Small at the head, greatest below the middle: no reversal of itself. */
const bevelAt = (mm: number): number => 3 + 15 * Math.exp(-(((Math.min(LENGTH_MM, Math.max(0, mm)) - 600) / 380) ** 2));

function planOf(bevel: (mm: number) => number = bevelAt, rip = {}, saw = {}): Plan {
  const rows = Array.from({ length: 37 }, (_, i) => [i * 50, bevel(i * 50)] as const);
  const made = makePlan(aJob({ shape: picked(...rows), rip, saw }));
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value;
}
const plan = planOf();
const usual = { half: 'outer', errorDeg: 0.5 } as const;

/** What was sawn, measured every 60 mm from 180 mm below the heel's mark to 180 mm above the head's. */
const measured = (bevel: (mm: number) => number, offDeg: (i: number) => number = () => 0): PieceRow[] =>
  Array.from({ length: 37 }, (_, i) => ({
    alongMm: -180 + i * 60,
    bevelDeg: bevel(-180 + i * 60) + offDeg(i),
    weight: 1,
  }));

function saved(rows: readonly PieceRow[], options = {}, from = plan) {
  const found = savePiece(from, rows, { ...usual, ...options });
  if (found === undefined) throw new Error('a plan of now');
  return found;
}

describe('a piece that was sawn shifted', () => {
  test('is found within its error, for bevels measured as well as by hand, and then fits', () => {
    holds(
      fc.property(fc.integer({ min: -150, max: 150 }), fc.integer({ min: 1, max: 1e6 }), (shiftMm, seed) => {
        const draw = draws(seed);
        // Even errors of half a degree at most: 0.29 degrees root mean square.
        const found = saved(
          measured(
            (mm) => bevelAt(mm + shiftMm),
            () => draw.even() - 0.5,
          ),
        );
        // At the ends of the piece the faired curve may stand off by more than half a degree: then a little is planed.
        expect(found.verdict).not.toBe('scrap');
        expect(Math.abs((found.shift?.shiftMm ?? Number.NaN) - shiftMm)).toBeLessThan(
          4 * (found.shift?.shiftSdMm ?? 0),
        );
        expect(found.shift?.shiftSdMm).toBeLessThan(12);
        expect(found.places[0]?.alongMm).toBeCloseTo(-(found.shift?.shiftMm ?? 0), 9);
      }),
      { numRuns: cases(20) },
    );
  });

  test('a second computation, every half millimetre against the frame’s own formula, finds the same', () => {
    holds(
      fc.property(fc.integer({ min: -120, max: 120 }), fc.integer({ min: 1, max: 1e6 }), (shiftMm, seed) => {
        const draw = draws(seed);
        const rows = measured(
          (mm) => bevelAt(mm + shiftMm),
          () => 0.3 * (draw.even() - 0.5),
        );
        let best = { mm: Number.NaN, off: Number.POSITIVE_INFINITY };
        for (let mm = -200; mm <= 200; mm += 0.5) {
          const on = rows.filter(({ alongMm }) => alongMm + mm >= 0 && alongMm + mm <= LENGTH_MM);
          const off = on.reduce((sum, row) => sum + (row.bevelDeg - bevelAt(row.alongMm + mm)) ** 2, 0) / on.length;
          if (off < best.off) best = { mm, off };
        }
        expect(Math.abs((saved(rows).shift?.shiftMm ?? Number.NaN) - best.mm)).toBeLessThan(1.5);
      }),
      { numRuns: cases(15) },
    );
  });

  test('is found to half a millimetre where nothing is measured wrong', () => {
    for (const shiftMm of [-140, -37, 0, 12.5, 145])
      expect(saved(measured((mm) => bevelAt(mm + shiftMm))).shift?.shiftMm).toBeCloseTo(shiftMm, 0);
  });

  test('with weights, in the inner wedge, and from any zero', () => {
    const inner = saved(
      measured((mm) => bevelAt(mm + 80)).map((row) => ({ ...row, weight: 7 })),
      { half: 'inner' },
    );
    expect(inner.shift?.shiftMm).toBeCloseTo(80, 0);
    const moved = measured((mm) => bevelAt(mm + 80)).map((row) => ({ ...row, alongMm: row.alongMm + 1000 }));
    const found = saved(moved, { fromMm: 800, toMm: 3000 });
    expect(found.shift?.shiftMm).toBeCloseTo(80 - 1000, 0);
    expect(found.verdict).toBe('fits');
  });

  test('too far to cover the frame, it is said where nobody measured', () => {
    const short = measured(bevelAt).filter(({ alongMm }) => alongMm >= 240);
    expect(saved(short).unmeasuredMm).toMatchObject({ heel: expect.closeTo(240, 0), head: 0 });
    expect(saved(measured(bevelAt), { fromMm: 0, toMm: 1000 }).verdict).toBe('fits');
  });
});

describe('an honest scrap', () => {
  test('mirrored; reversed; but both at once is the right piece measured from its other end', () => {
    const mirrored = measured((mm) => -bevelAt(mm));
    const reversed = measured((mm) => bevelAt(LENGTH_MM - mm));
    expect(saved(mirrored)).toMatchObject({ verdict: 'scrap', reason: 'mirrored' });
    expect(saved(reversed)).toMatchObject({ verdict: 'scrap', reason: 'reversed' });
    const turned = saved(measured((mm) => -bevelAt(LENGTH_MM - mm)));
    expect(turned).toMatchObject({ verdict: 'fits', taking: 'end for end' });
  });

  test('mirrored and reversed ones of many frames are never taken for good ones', () => {
    holds(
      fc.property(
        fc.integer({ min: 350, max: 700 }),
        fc.integer({ min: 8, max: 16 }),
        fc.constantFrom('left' as const, 'right' as const),
        fc.constantFrom(1, -1),
        (peakMm, most, leans, hand) => {
          const bevel = (mm: number): number =>
            hand * (3 + most * Math.exp(-(((Math.min(LENGTH_MM, Math.max(0, mm)) - peakMm) / 300) ** 2)));
          const made = planOf(bevel, {}, { leans });
          expect(saved(measured(bevel), {}, made).verdict).toBe('fits');
          expect(
            saved(
              measured((mm) => -bevel(mm)),
              {},
              made,
            ).verdict,
          ).toBe('scrap');
          expect(
            saved(
              measured((mm) => bevel(LENGTH_MM - mm)),
              {},
              made,
            ).verdict,
          ).toBe('scrap');
        },
      ),
      { numRuns: cases(6) },
    );
  });

  test('cut too far: wood that the bevel wants is gone, and it is told where and how much', () => {
    const found = saved(measured((mm) => bevelAt(mm) - 3));
    expect(found).toMatchObject({ verdict: 'scrap', reason: 'too-little-wood' });
    // By hand, at the greatest bevel: 48 mm (tan 18 - tan 15) lack, with no more than the thinnest edge there.
    expect(found.lacks?.mm).toBeGreaterThan(1);
    expect(found.lacks?.edge).toBe('forward');
    // With wood to spare at that edge it is planed instead.
    const thick = measured((mm) => bevelAt(mm) - 3).map((row) => ({ ...row, thinMm: 8 }));
    expect(saved(thick).verdict).toBe('plane');
  });

  test('a piece that is far too short', () => {
    expect(saved(measured(bevelAt).slice(0, 3), { fromMm: -180, toMm: -60 })).toMatchObject({ verdict: 'scrap' });
  });
});

describe('planing', () => {
  test('too much bevel comes off the thick edge: s (tan have - tan want) on the edge, by hand', () => {
    const found = saved(
      measured((mm) => bevelAt(mm) + 2),
      { errorDeg: 0.1 },
    );
    expect(found.verdict).toBe('plane');
    for (const { haveDeg, wantDeg, edge, edgeMm, isNear, isMeasured } of found.places) {
      if (isNear || !isMeasured) continue;
      expect(edge).toBe('aft');
      const tan = (deg: number): number => Math.tan((deg * Math.PI) / 180);
      expect(edgeMm).toBeCloseTo(48 * (tan(haveDeg) - tan(wantDeg)), 9);
    }
  });

  /** Second computation: the section as a polygon, cut by the finished face, and measured with a bevel. */
  test('as told gives the frame’s bevel, takes nothing that is not there, and keeps the thinnest edge', () => {
    const asked = askedOf(plan, 'outer');
    const inner = askedOf(plan, 'inner');
    if (asked === undefined || inner === undefined) throw new Error('a plan of now');
    holds(
      fc.property(
        fc.constantFrom(asked, inner),
        fc.constantFrom(1 as const, -1 as const),
        fc.double({ min: -5, max: 30, noNaN: true }),
        fc.double({ min: -5, max: 30, noNaN: true }),
        fc.double({ min: 1, max: 20, noNaN: true }),
        fc.double({ min: 0, max: 6, noNaN: true }),
        (half, hand, haveDeg, wantDeg, thinMm, thinnestEdgeMm) => {
          const at = { ...half, hand, thinnestEdgeMm };
          const told = planingAt(at, haveDeg, wantDeg, thinMm);
          const sidingMm = 48;
          // Up edge at x = 0, down edge at x = siding; the flat at y = 0.
          const grows = (half.half === 'outer' ? 1 : -1) * hand;
          const slope = (grows * sidingMm * Math.tan((haveDeg * Math.PI) / 180)) as number;
          const [upMm, downMm] = slope > 0 ? [thinMm + slope, thinMm] : [thinMm, thinMm - slope];
          const isUp = told.edge === half.upEdge;
          const [newUp, newDown] = isUp ? [upMm - told.edgeMm, downMm] : [upMm, downMm - told.edgeMm];
          expect(told.edgeMm).toBeGreaterThanOrEqual(0);
          expect(Math.min(newUp, newDown)).toBeGreaterThanOrEqual(Math.min(thinMm, thinnestEdgeMm) - 1e-9);
          const bevel = (Math.atan((grows * (newUp - newDown)) / sidingMm) * 180) / Math.PI;
          expect(bevel - wantDeg).toBeCloseTo(told.leftDeg, 9);
          expect(told.thinnestMm).toBeCloseTo(Math.min(newUp, newDown), 9);
          if (told.lacksMm > 0) return;
          expect(bevel).toBeCloseTo(wantDeg, 9);
          // From the old corner square to the finished face.
          const [dx, dy] = [sidingMm, newDown - newUp];
          const corner = isUp ? [0, upMm] : [sidingMm, downMm];
          const off = Math.abs(dx * ((corner[1] ?? 0) - newUp) - dy * (corner[0] ?? 0)) / Math.hypot(dx, dy);
          expect(told.planeMm).toBeCloseTo(off, 9);
        },
      ),
    );
  });

  test('the edges that it starts from are those of the plan, where the piece is as planned', () => {
    const asked = askedOf(plan, 'outer');
    if (asked === undefined) throw new Error('a plan of now');
    for (const { sawnDeg, outerEdgesMm } of plan.marks) {
      const { leavesMm, thinnestMm } = planingAt(asked, sawnDeg, sawnDeg);
      expect(thinnestMm).toBeCloseTo(Math.min(...outerEdgesMm), 9);
      expect(outerEdgesMm.some((mm) => Math.abs(mm - leavesMm) < 1e-9)).toBe(true);
    }
  });
});

test('a row that stands off the others is left out and named', () => {
  const rows = measured((mm) => bevelAt(mm + 40)).map((row, i) =>
    i === 14 ? { ...row, bevelDeg: row.bevelDeg + 9 } : row,
  );
  const found = saved(rows);
  expect(found.suspects.map(({ row }) => row)).toEqual([15]);
  expect(found.shift?.shiftMm).toBeCloseTo(40, 0);
});
