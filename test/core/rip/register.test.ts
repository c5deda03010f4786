import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../../server/core/plan/plan.ts';
import { registerWedges, worstDeg } from '../../../server/core/rip/registered.ts';
import { aJob } from '../../kit/aJob.ts';
import { cases } from '../../kit/cases.ts';
import { holds } from '../../kit/holds.ts';
import { planned } from '../../kit/planned.ts';
import { between, ripOf, walkEdge } from '../../kit/sawnFrame.ts';

const range = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const bump = (mm: number, atMm: number, widthMm: number): number => Math.exp(-(((mm - atMm) / widthMm) ** 2));
const grid = Array.from({ length: 241 }, (_, i) => i * 5);

/** A bevel greatest at 500, where the frame turns gently below and sharply above: the drift is 0.02 and 0.12 of the girth. */
function lopsided() {
  const inner = (mm: number): number => mm - (mm - 500) * (mm < 500 ? 0.02 : 0.12);
  const bevel = (mm: number): number => 2 + 9 * bump(mm, 500, 250);
  const lines = { stockMm: grid, innerMm: grid.map(inner), sawnDeg: grid.map(bevel) };
  return { ...lines, wantedDeg: lines.sawnDeg };
}

describe('the registration of the two wedges', () => {
  test('eases the worse side of the turn until both are alike', () => {
    const lines = lopsided();
    const atTurn = worstDeg(lines, 0);
    const { shiftMm, worstDeg: least } = registerWedges(lines, 100);
    expect(least).toBeLessThan(0.9 * atTurn);
    const leftAt = (mm: number): number => {
      const i = grid.indexOf(mm);
      const sawn = between(grid, lines.sawnDeg)((lines.innerMm[i] ?? 0) + shiftMm);
      return Math.abs(sawn - (lines.wantedDeg[i] ?? 0));
    };
    const most = (mms: readonly number[]): number => Math.max(...mms.map(leftAt));
    expect(most(grid.filter((mm) => mm <= 500))).toBeCloseTo(most(grid.filter((mm) => mm >= 500)), 2);
  });

  test('stays at the turn where the bevel does not change, or where nothing is bent', () => {
    const even = grid.map(() => 7);
    const innerMm = grid.map((mm) => mm * 0.94);
    const bent = { stockMm: grid, innerMm, sawnDeg: even, wantedDeg: even };
    expect(registerWedges(bent, 30)).toStrictEqual({ shiftMm: 150 - 150 * 0.94, worstDeg: 0 });
    const straight = { ...lopsided(), innerMm: grid };
    expect(registerWedges(straight, 100)).toStrictEqual({ shiftMm: 0, worstDeg: 0 });
  });
});

/** Two humps of bevel and a turn that may be anywhere, or reversed below it. */
const frames = fc.record({
  girthMm: range(900, 1800),
  turnDeg: range(20, 80),
  turnAt: range(0.2, 0.8),
  reverse: range(0, 0.5),
  humps: fc.array(fc.record({ deg: range(2, 8), at: range(0.1, 0.9), wide: range(0.15, 0.4) }), {
    minLength: 1,
    maxLength: 2,
  }),
});

function planOf(f: typeof frames extends fc.Arbitrary<infer F> ? F : never): Plan {
  const { girthMm } = f;
  const most = (((f.turnDeg * Math.PI) / 180) * 0.56) / (0.3 * girthMm);
  const edge = walkEdge({
    girthMm,
    curvaturePerMm: (mm) =>
      most * (bump(mm, f.turnAt * girthMm, 0.3 * girthMm) - f.reverse * bump(mm, 0, 0.15 * girthMm)),
    bevelDeg: () => 0,
    hollowMm: 0,
  });
  const bevel = (mm: number): number =>
    2 + f.humps.reduce((sum, hump) => sum + hump.deg * bump(mm, hump.at * girthMm, hump.wide * girthMm), 0);
  const rows = Array.from({ length: 25 }, (_, i) => (girthMm * i) / 24);
  const points = edge
    .filter((_, i) => i % 50 === 0 || i === edge.length - 1)
    .map(({ at: [yMm, zMm] }) => ({ yMm, zMm }));
  return planned(
    aJob({
      frame: { mouldingMm: 110 },
      shape: {
        kind: 'pick-up',
        file: 'pickup.csv',
        rows: rows.map((mm) => ({ girthMm: mm, bevelDeg: bevel(mm), weight: 1 })),
        errorDeg: 0.5,
        pattern: { file: 'pattern.csv', points },
      },
      marks: { kind: 'spacing', spacingMm: 10 },
    }),
  );
}

test('laid any other way along the stock, the inner wedge of a plan is not less off where it is worst', () => {
  holds(
    fc.property(frames, (figures) => {
      const { marks, rip } = planOf(figures);
      const stockMm = marks.map((mark) => mark.stockMm);
      const sawnDeg = marks.map((mark) => mark.sawnDeg);
      const worst = (moveMm: number): number => {
        const sawnAt = between(stockMm, sawnDeg);
        return Math.max(...marks.map((mark) => Math.abs(sawnAt(mark.innerStockMm + moveMm) - mark.bevelDeg)));
      };
      const planned = worst(0);
      expect(Math.abs(planned - Math.abs(rip?.left.inner?.deg ?? 0))).toBeLessThan(0.03);
      for (let moveMm = -150; moveMm <= 150; moveMm += 1) expect(worst(moveMm)).toBeGreaterThan(planned - 0.02);
    }),
    { numRuns: cases(12), endOnFailure: true },
  );
});

test('the plan says where they agree', () => {
  const plan = planOf({
    girthMm: 1500,
    turnDeg: 60,
    turnAt: 0.45,
    reverse: 0,
    humps: [{ deg: 8, at: 0.4, wide: 0.25 }],
  });
  const { registerMm } = ripOf(plan);
  const apart = plan.marks.map(({ girthMm, stockMm, innerStockMm }) => [girthMm, innerStockMm - stockMm] as const);
  for (const [girthMm, mm] of apart)
    expect(Math.sign(mm)).toBe(Math.abs(girthMm - registerMm) < 10 ? Math.sign(mm) : Math.sign(registerMm - girthMm));
});
