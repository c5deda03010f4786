/** Straight stock, bent frame: whole plans against closed forms. */
import { describe, expect, test } from 'vitest';
import { girthOffBatten } from '../../../server/core/rip/batten.ts';
import { aJob, picked } from '../../kit/aJob.ts';
import { planned } from '../../kit/planned.ts';
import { ripOf } from '../../kit/sawnFrame.ts';

const rad = (deg: number): number => (deg * Math.PI) / 180;

/** An arc that leaves the heel level, outward and up (negative radius: down), a point every `everyDeg`. */
function arc(radiusMm: number, girthMm: number, parts = 40) {
  return Array.from({ length: parts + 1 }, (_, i) => {
    const turn = (girthMm * i) / parts / radiusMm;
    return { yMm: 1500 + radiusMm * Math.sin(turn), zMm: 900 + radiusMm * (1 - Math.cos(turn)) };
  });
}

const GIRTH = 1300;
const circular = (
  radiusMm: number,
  bevelDeg: number,
  parts: Parameters<typeof aJob>[0] = {},
  points = arc(radiusMm, GIRTH),
) =>
  aJob({
    shape: {
      ...picked([0, bevelDeg], [GIRTH / 2, bevelDeg], [GIRTH, bevelDeg]),
      pattern: { file: 'pattern.csv', points },
    },
    marks: { kind: 'spacing', spacingMm: 100 },
    ...parts,
  });

/**
 * Closed forms. Derived: with the bevel b constant all sections are alike, and a line h inside a circle of radius R is 1 - h/R as
 * long as the circle. Fence, axis at the table, thin edge 3, s = 48, k = 2.4: edges 3 and 3 + 48 tan b.
 */
describe('a circular frame of constant bevel over 1.3 m', () => {
  const centroid = (a: number, b: number) => (a * a + a * b + b * b) / (3 * (a + b));
  test.each([
    [900, 12, 'forward'],
    [900, -12, 'forward'],
    [2500, 20, 'aft'],
    [1200, 5, 'aft'],
    [-1500, 9, 'forward'],
    [700, 0, 'forward'],
  ] as const)('radius %d, bevel %d, moulded face %s', (radiusMm, bevelDeg, mouldedFace) => {
    const made = planned(circular(radiusMm, bevelDeg, { frame: { mouldedFace } }));
    const [thin, thick] = [3, 3 + 48 * Math.tan(rad(Math.abs(bevelDeg)))];
    // Standing grows away from the moulded face; the inner wedge is the outer one the other way round.
    const [a, b] = bevelDeg >= 0 ? [thin, thick] : [thick, thin];
    const outerDepth = a - centroid(a, b);
    const innerDepth = 75 - b + centroid(a, b);
    const start = made.marks[0]?.innerStockMm ?? Number.NaN;
    expect(start).toBeCloseTo(0, 9);
    for (const { girthMm, stockMm, innerStockMm } of made.marks) {
      expect(Math.abs(stockMm - girthMm * (1 - outerDepth / radiusMm))).toBeLessThan(0.1);
      expect(Math.abs(innerStockMm - girthMm * (1 - innerDepth / radiusMm))).toBeLessThan(0.1);
    }
    const { ends, left } = ripOf(made);
    expect(ends.outer.lengthMm).toBeCloseTo(GIRTH * (1 - outerDepth / radiusMm), 0);
    expect(left).toStrictEqual({ outer: null, inner: null });
  });

  test('where the moulded edge is the thin one, the stock is longer than the girth', () => {
    const last = planned(circular(900, 15)).marks.at(-1);
    expect(last?.stockMm).toBeGreaterThan(GIRTH + 2);
  });

  test('the wedges are cut off where the frame ends, with what it has beyond its marks, and the stock holds both', () => {
    const made = planned(circular(900, 12, { rip: { heelBeyondMm: 40, headBeyondMm: 25, endWasteMm: 150 } }));
    const { ends } = ripOf(made);
    const last = made.marks.at(-1);
    const share = (last?.stockMm ?? 0) / GIRTH;
    expect(ends.outer.heelMm).toBeCloseTo(-40 * share, 1);
    expect(ends.outer.headMm).toBeCloseTo((last?.stockMm ?? 0) + 25 * share, 1);
    expect(ends.outer.lengthMm).toBeCloseTo((GIRTH + 65) * share, 1);
    expect(ends.inner.lengthMm).toBeLessThan(ends.outer.lengthMm);
    const span = Math.max(ends.outer.headMm, ends.inner.headMm) - Math.min(ends.outer.heelMm, ends.inner.heelMm);
    expect(made.stock.lengthMm).toBeCloseTo(span + 300, 6);
  });
});

describe('what is left where the frame turns', () => {
  const changing = (parts: Parameters<typeof aJob>[0] = {}) =>
    aJob({
      shape: {
        ...picked([0, 4], [300, 7], [600, 11], [700, 11.5], [800, 11], [1100, 6], [1300, 3]),
        pattern: { file: 'pattern.csv', points: arc(1000, GIRTH) },
      },
      marks: { kind: 'spacing', spacingMm: 50 },
      ...parts,
    });

  test('with the outer wedge favoured it has its bevel all along, and the inner one is off by what the bevel changes over the drift', () => {
    const made = planned(changing());
    for (const { sawnDeg, bevelDeg } of made.marks) expect(sawnDeg).toBe(bevelDeg);
    const { left, registerMm, favours } = ripOf(made);
    expect(favours).toBe('outer');
    expect(left.outer).toBeNull();
    for (const [i, mark] of made.marks.entries()) {
      const [before, after] = [made.marks[i - 1], made.marks[i + 1]];
      if (before === undefined || after === undefined) continue;
      const slope = (after.bevelDeg - before.bevelDeg) / (after.stockMm - before.stockMm);
      expect(Math.abs((mark.innerLeftDeg ?? 0) - slope * (mark.innerStockMm - mark.stockMm))).toBeLessThan(0.06);
    }
    const atTurn = made.marks.reduce((a, b) =>
      Math.abs(b.girthMm - registerMm) < Math.abs(a.girthMm - registerMm) ? b : a,
    );
    expect(Math.abs(atTurn.innerLeftDeg ?? 1)).toBeLessThan(0.02);
    const most = Math.max(...made.marks.map(({ innerLeftDeg = 0 }) => Math.abs(innerLeftDeg)));
    expect(Math.abs(left.inner?.deg ?? 0)).toBeGreaterThanOrEqual(most);
    expect(left.inner?.deg).toBeCloseTo(most, 1);
  });

  test('registered at the turn less is left than with both wedges begun at the heel', () => {
    const made = planned(changing());
    const shift = made.marks[0]?.innerStockMm ?? 0;
    const stocks = made.marks.map(({ stockMm }) => stockMm);
    const bevelAt = (stockMm: number): number => {
      const i = Math.max(
        1,
        stocks.findIndex((at) => at >= stockMm),
      );
      const [a, b] = [made.marks[i - 1], made.marks[i]];
      if (a === undefined || b === undefined) throw new Error('no marks');
      return a.bevelDeg + ((stockMm - a.stockMm) / (b.stockMm - a.stockMm)) * (b.bevelDeg - a.bevelDeg);
    };
    const fromHeel = made.marks.map(({ innerStockMm, bevelDeg }) => Math.abs(bevelAt(innerStockMm - shift) - bevelDeg));
    expect(Math.max(...fromHeel)).toBeGreaterThan(1.3 * Math.abs(ripOf(made).left.inner?.deg ?? 0));
  });

  test('with both favoured each is off by half, in opposite ways', () => {
    const [outer, both] = [planned(changing()), planned(changing({ rip: { favours: 'both' } }))];
    const [one, two] = [ripOf(outer).left, ripOf(both).left];
    expect(Math.abs(two.inner?.deg ?? 0)).toBeCloseTo(Math.abs(one.inner?.deg ?? 0) / 2, 1);
    expect(Math.abs(two.outer?.deg ?? 0)).toBeCloseTo(Math.abs(one.inner?.deg ?? 0) / 2, 1);
    expect(Math.sign(two.outer?.deg ?? 0)).toBe(-Math.sign(two.inner?.deg ?? 0));
    for (const [i, { stockMm }] of both.marks.entries())
      expect(Math.abs(stockMm - (outer.marks[i]?.stockMm ?? 0))).toBeLessThan(0.1);
  });

  test('a straight frame, or one without a pattern, leaves nothing', () => {
    for (const job of [aJob(), aJob({ rip: { favours: 'both' } })])
      expect(ripOf(planned(job)).left).toStrictEqual({ outer: null, inner: null });
  });
});

/** Derived: around an arc of radius R a batten t thick, inside it, shows 1 - t / 2R of the girth. */
describe('girths off a batten', () => {
  test('around a bilge the girth is longer than the batten shows, by its half thickness times the turn', () => {
    const girthOf = girthOffBatten(arc(800, GIRTH), 12);
    for (const girthMm of [0, 200, 650, 1200])
      expect(Math.abs(girthOf(girthMm * (1 - 6 / 800)) - girthMm)).toBeLessThan(0.05);
    expect(girthOf(GIRTH * (1 - 6 / 800)) - GIRTH * (1 - 6 / 800)).toBeCloseTo((6 * GIRTH) / 800, 1);
  });
  test('around a reverse turn it is shorter', () => {
    expect(girthOffBatten(arc(-800, GIRTH), 12)(1000)).toBeCloseTo(1000 / (1 + 6 / 800), 1);
  });
  test('the plan is made along the moulded edge, and says what it came to', () => {
    const shape = circular(800, 8).shape;
    if (shape.kind !== 'pick-up') throw new Error(shape.kind);
    const rows = shape.rows.map((row) => ({ ...row, girthMm: row.girthMm * (1 - 6 / 800) }));
    const made = planned(aJob({ shape: { ...shape, rows, battenMm: 12 } }));
    expect(made.girthMm).toBeCloseTo(GIRTH, 1);
    expect(ripOf(made).batten).toMatchObject({ thicknessMm: 12, atHeadMm: expect.closeTo((6 * GIRTH) / 800, 1) });
    expect(ripOf(planned(circular(800, 8))).batten).toBeUndefined();
  });
});
