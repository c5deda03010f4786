import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fairPickUp } from '../../../server/core/frame/fairPickUp.ts';
import { expectClose } from '../../kit/close.ts';
import { someRows } from '../numeric/someRows.ts';
import { chance, normal, pickUpOf } from './fairFrames.ts';

const girthsMm = [0, 150, 300, 450, 600, 700, 800, 950, 1100, 1250];
const bevelsDeg = [3, 5, 8, 12, 15.5, 17, 15.5, 11, 6.5, 4];

describe('fairing a pick-up', () => {
  test('three readings of one place that all stand apart outvote nobody', () => {
    const fair = fairPickUp(
      pickUpOf(
        [...girthsMm.slice(0, 4), 450, 450, ...girthsMm.slice(4)],
        [...bevelsDeg.slice(0, 3), 7, 12, 17, ...bevelsDeg.slice(4)],
      ),
    );
    expect(fair.suspects).toEqual([]);
    expect(fair.measureAgain).toMatchObject([{ row: 6, girthMm: 450, othersDeg: 12 }]);
  });

  test('weights count against each other only', () => {
    const slipped = pickUpOf(girthsMm, bevelsDeg.with(3, 21));
    const light = { ...slipped, rows: slipped.rows.map((row) => ({ ...row, weight: 0.01 })) };
    expect(fairPickUp(light).suspects.map(({ row }) => row)).toEqual([4]);
    expectClose(fairPickUp(light).bevelAtDeg(450), fairPickUp(slipped).bevelAtDeg(450), 1e-6, 'degrees');
  });

  test('leaves a fair list alone but for the half degree', () => {
    const fair = fairPickUp(pickUpOf(girthsMm, bevelsDeg));
    expect(fair.suspects).toEqual([]);
    expect(fair.rmsDeg).toBeLessThan(0.5);
    girthsMm.forEach((girthMm, i) => {
      expectClose(fair.bevelAtDeg(girthMm), bevelsDeg[i] ?? Number.NaN, 0.6, `row ${i + 1}`);
    });
    expect([fair.fromGirthMm, fair.toGirthMm]).toEqual([0, 1250]);
  });

  test.each([
    [4, -12, 'below', 'the sign slipped: 12 would be fair'],
    [4, 21, 'above', 'two digits changed places: 12 would be fair'],
    [7, 1.55, 'below', 'the point slipped: 15.5 would be fair'],
    [6, 27, 'above', 'measure it again'],
  ])('row %d written as %d is named, and left out', (row, wrong, side, reason) => {
    const fair = fairPickUp(pickUpOf(girthsMm, bevelsDeg.with(row - 1, wrong)));
    expect(fair.suspects.map((suspect) => suspect.row)).toEqual([row]);
    const [suspect] = fair.suspects;
    expect(suspect?.girthMm).toBe(girthsMm[row - 1]);
    expect(suspect?.foundDeg).toBe(wrong);
    expect(suspect?.reason).toMatch(new RegExp(`^stands [0-9.]+ degrees ${side} its neighbours; .*${reason}$`));
    expectClose(suspect?.fairDeg ?? Number.NaN, bevelsDeg[row - 1] ?? Number.NaN, 1.5, 'what would be fair there');
    expect([fair.isSuspect(row), fair.isSuspect(row + 1)]).toEqual([true, false]);
    expect(fair.bevelAtDeg(girthsMm[row - 1] ?? 0)).toBe(suspect?.fairDeg);
    expect(fair.rmsDeg).toBeLessThan(0.5);
  });

  test.each([
    [1, -9, 'above'],
    [10, 14, 'below'],
  ])('row %d, an end, written as %d is asked for again, and nothing is left out', (row, wrong) => {
    const fair = fairPickUp(pickUpOf(girthsMm, bevelsDeg.with(row - 1, wrong)));
    expect(fair.suspects).toEqual([]);
    expect(fair.isSuspect(row)).toBe(false);
    const [asked, ...more] = fair.measureAgain;
    expect(more).toEqual([]);
    expect(asked).toMatchObject({ row, foundDeg: wrong, girthMm: girthsMm[row - 1] });
    expect(asked?.reason).toMatch(
      /^stands [0-9.]+ degrees (above|below) where the others lead \(-?[0-9.]+°\), and nothing beyond the (heel|head)/,
    );
    expectClose(asked?.othersDeg ?? Number.NaN, bevelsDeg[row - 1] ?? Number.NaN, 3.5, 'what the others lead to');
  });

  test('an end that is asked for again is named as it was written, whatever its weight', () => {
    const { rows, ...pickUp } = pickUpOf(girthsMm, bevelsDeg.with(0, 12));
    const weighted = rows.map((row, i) => (i === 0 ? { ...row, weight: 0.1 } : row));
    expect(fairPickUp({ ...pickUp, rows: weighted }).measureAgain).toMatchObject([{ row: 1, foundDeg: 12 }]);
  });

  test('a second reading at the same girth that agrees settles it; one that does not asks for a third', () => {
    const girths = [0, ...girthsMm];
    expect(fairPickUp(pickUpOf(girths, [-9, -8.5, ...bevelsDeg.slice(1)])).measureAgain).toEqual([]);
    const apart = fairPickUp(pickUpOf(girths, [-9, 3, ...bevelsDeg.slice(1)]));
    expect(apart.measureAgain).toMatchObject([{ row: 2, girthMm: 0, foundDeg: 3, othersDeg: -3 }]);
    expect(apart.measureAgain[0]?.reason).toContain('12.0 degrees apart');
    // The third decides: the slip is outvoted, and named.
    const three = fairPickUp(pickUpOf([0, ...girths], [-9, 3, 3.5, ...bevelsDeg.slice(1)]));
    expect(three.measureAgain).toEqual([]);
    expect(three.suspects).toMatchObject([{ row: 1, foundDeg: -9, fairDeg: 3.25 }]);
    expectClose(three.bevelAtDeg(0), 3.25, 0.5, 'the mean of the two that agree');
  });

  test('of two readings between the ends that stand apart the one that is not fair is left out, and the other counts', () => {
    const fair = fairPickUp(pickUpOf(girthsMm.toSpliced(4, 0, 600), bevelsDeg.toSpliced(4, 0, 23.5)));
    expect(fair.suspects).toMatchObject([{ row: 5, foundDeg: 23.5 }]);
    expect(fair.measureAgain).toEqual([]);
    expectClose(fair.bevelAtDeg(600), 15.5, 1, 'the bevel of the reading that is kept');
  });

  test('readings of one place count as one row with all their weight', () => {
    const twice = fairPickUp(pickUpOf(girthsMm.toSpliced(4, 0, 600), bevelsDeg.toSpliced(4, 0, 15)));
    const mean = pickUpOf(girthsMm, bevelsDeg.with(4, 15.25));
    const heavy = fairPickUp({ ...mean, rows: mean.rows.map((row, i) => (i === 4 ? { ...row, weight: 2 } : row)) });
    for (const girthMm of [0, 500, 600, 1000])
      expectClose(twice.bevelAtDeg(girthMm), heavy.bevelAtDeg(girthMm), 1e-9, `at ${girthMm}`);
  });

  test('with five places or fewer nothing is checked, unless each was read twice', () => {
    const few = (places: number, readings: number) =>
      fairPickUp(
        pickUpOf(
          girthsMm.slice(0, places).flatMap((mm) => Array.from({ length: readings }, () => mm)),
          bevelsDeg.slice(0, places).flatMap((deg) => Array.from({ length: readings }, () => deg)),
        ),
      ).unchecked;
    expect([few(2, 1), few(2, 2), few(5, 1), few(6, 1), few(5, 2)]).toEqual([
      'two places',
      'two places',
      'few places',
      null,
      null,
    ]);
  });

  test('two slips do not hide each other, near or far', () => {
    for (const [a, b] of [
      [2, 7],
      [3, 4],
      [3, 5],
    ] as const) {
      const slipped = bevelsDeg.with(a, -(bevelsDeg[a] ?? 0)).with(b, -(bevelsDeg[b] ?? 0));
      const fair = fairPickUp(pickUpOf(girthsMm, slipped));
      expect(
        fair.suspects.map(({ row }) => row),
        `rows ${a + 1} and ${b + 1}`,
      ).toEqual([a + 1, b + 1]);
    }
  });

  test('a coarser measuring error excuses more', () => {
    const humped = bevelsDeg.with(4, 19);
    expect(fairPickUp(pickUpOf(girthsMm, humped, 0.3)).suspects.map(({ row }) => row)).toEqual([5]);
    expect(fairPickUp(pickUpOf(girthsMm, humped, 2)).suspects).toEqual([]);
  });

  test('a rough pick-up is rough, not full of suspects', () => {
    const next = chance(5);
    const girths = Array.from({ length: 60 }, (_, i) => i * 100);
    const fair = fairPickUp(
      pickUpOf(
        girths,
        girths.map((girthMm) => 10 * Math.sin(girthMm / 1800) + 2 * normal(next)),
        0.1,
      ),
    );
    expect(fair.suspects.length).toBeLessThanOrEqual(2);
    expectClose(fair.rmsDeg, 2, 0.5, 'rms');
  });

  test('straight bevels stay straight, and no row is a suspect', () => {
    fc.assert(
      fc.property(
        someRows(2, 14),
        fc.integer({ min: -20, max: 20 }),
        fc.integer({ min: -9, max: 9 }),
        ({ x, weight }, heel, slope) => {
          const bevelDeg = (girthMm: number) => heel + (slope / 1000) * girthMm;
          const rows = x.map((girthMm, i) => ({ girthMm, bevelDeg: bevelDeg(girthMm), weight: weight[i] ?? 1 }));
          const fair = fairPickUp({ kind: 'pick-up', file: 'pickup.csv', rows, errorDeg: 0.5 });
          expect(fair.suspects).toEqual([]);
          for (const girthMm of [0, 100, fair.toGirthMm, fair.toGirthMm + 300]) {
            expectClose(fair.bevelAtDeg(girthMm), bevelDeg(girthMm), 1e-8, `at ${girthMm}`);
            expectClose(fair.slopeAtDegPerMm(girthMm), slope / 1000, 1e-8, `slope at ${girthMm}`);
          }
        },
      ),
    );
  });

  test('whatever the rows, most of them are kept, every one left out is named, and the curve is finite', () => {
    const heavy = fc.array(
      fc.integer({ min: -6, max: 6 }).map((log) => 10 ** log),
      { minLength: 20, maxLength: 20 },
    );
    fc.assert(
      fc.property(someRows(2, 20), heavy, fc.constantFrom(0, 0.5, 3), ({ x, y }, weights, errorDeg) => {
        const rows = x.map((girthMm, i) => ({ girthMm, bevelDeg: y[i] ?? 0, weight: weights[i] ?? 1 }));
        const fair = fairPickUp({ kind: 'pick-up', file: 'pickup.csv', rows, errorDeg });
        expect(fair.suspects.length).toBeLessThanOrEqual(Math.max(0, (rows.length - 2) / 3));
        expect(fair.suspects.map(({ row }) => row)).toEqual(rows.map((_, i) => i + 1).filter(fair.isSuspect));
        for (const { girthMm } of rows) expect(fair.bevelAtDeg(girthMm)).toBeTypeOf('number');
        expect(Number.isFinite(fair.bevelAtDeg((fair.fromGirthMm + fair.toGirthMm) / 2))).toBe(true);
        expect(Number.isFinite(fair.rmsDeg)).toBe(true);
      }),
      { numRuns: 60 },
    );
  });

  test('turning every bevel to the other hand turns the whole answer', () => {
    const found = bevelsDeg.with(3, 21);
    const [plain, turned] = [found, found.map((deg) => -deg)].map((list) => fairPickUp(pickUpOf(girthsMm, list)));
    expect(turned?.suspects.map(({ row }) => row)).toEqual(plain?.suspects.map(({ row }) => row));
    for (const girthMm of girthsMm)
      expectClose(turned?.bevelAtDeg(girthMm) ?? 0, -(plain?.bevelAtDeg(girthMm) ?? 1), 1e-9);
  });

  test('only how weights stand to each other counts', () => {
    const weighted = (times: number) => ({
      ...pickUpOf(girthsMm, bevelsDeg),
      rows: girthsMm.map((girthMm, i) => ({ girthMm, bevelDeg: bevelsDeg[i] ?? 0, weight: times * (1 + (i % 3)) })),
    });
    const [once, often] = [fairPickUp(weighted(1)), fairPickUp(weighted(64))];
    for (const girthMm of girthsMm) expectClose(often.bevelAtDeg(girthMm), once.bevelAtDeg(girthMm), 1e-9);
  });

  test('5,000 rows are faired, and the fifty that slipped are found', () => {
    const next = chance(11);
    const girths = Array.from({ length: 5000 }, (_, i) => i * 1.3);
    const slips = (i: number) => i % 100 === 50;
    const fair = fairPickUp(
      pickUpOf(
        girths,
        girths.map((_, i) => 20 * Math.sin(i / 1000) + 0.3 * normal(next) + (slips(i) ? 15 : 0)),
      ),
    );
    expect(fair.suspects.map(({ row }) => row - 1)).toEqual(girths.map((_, i) => i).filter(slips));
    expectClose(fair.rmsDeg, 0.3, 0.02, 'rms');
  });

  test('refuses what the door should have refused', () => {
    expect(() => fairPickUp(pickUpOf([0], [3]))).toThrow('at least 2 rows');
    expect(() => fairPickUp(pickUpOf([0, 0], [3, 4]))).toThrow('at least 2 rows');
    expect(() => fairPickUp(pickUpOf([10, 0], [3, 4]))).toThrow('0 after 10');
  });
});
