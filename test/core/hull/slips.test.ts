/** Slips of the pen in tables of hulls known exactly: how many are found and blamed on their own cell, and how many fair tables are accused. */
import { describe, expect, test } from 'vitest';
import type { OffsetPoint, OffsetTable } from '../../../server/core/hull/offsets.ts';
import { slipsIn, standingOff } from '../../../server/core/hull/slips.ts';
import { cases } from '../../kit/cases.ts';
import { expectClose } from '../../kit/close.ts';
import { evenly, offsetTable } from '../../kit/offsetTable.ts';
import { traditional } from '../../kit/wideTable.ts';
import { chance } from '../frame/fairFrames.ts';
import { offsetsOf, randomHull } from './analyticHull.ts';

const [STATIONS, POINTS, EIGHTH_MM] = [21, 15, 3.175];

const inEighths = (mm: number): string => traditional(mm, false);

/** The table with one figure in place of another; cells are written as `write` does. */
function withSlip(
  table: OffsetTable,
  at: { readonly station: number; readonly point: number; readonly side: 'y' | 'z'; readonly mm: number },
  write: (mm: number) => string,
): OffsetTable {
  const written = (point: OffsetPoint, yMm: number, zMm: number): OffsetPoint => ({
    ...point,
    yMm,
    zMm,
    yCell: { ...point.yCell, text: write(yMm) },
    zCell: { ...point.zCell, text: write(zMm) },
  });
  return {
    ...table,
    stations: table.stations.map((station, i) => ({
      ...station,
      points: station.points.map((point, j) => {
        if (i !== at.station || j !== at.point) return written(point, point.yMm, point.zMm);
        return at.side === 'y' ? written(point, at.mm, point.zMm) : written(point, point.yMm, at.mm);
      }),
    })),
  };
}

/** Of so many slips of at least `leastMm`: the share that is found in its own cell, and that where others are accused beside. */
function rates(
  tables: number,
  stepMm: number,
  leastMm: number,
  slip: (mm: number, draw: () => number) => number,
  write: (mm: number) => string,
): { readonly found: number; readonly others: number; readonly of: number } {
  let [of, found, others] = [0, 0, 0];
  for (let i = 0; i < tables; i++) {
    const draw = chance(12_000 + i);
    const table = offsetsOf(randomHull(draw), STATIONS, POINTS, stepMm);
    const [station, point] = [1 + Math.floor(19 * draw()), 1 + Math.floor(13 * draw())];
    const side = draw() < 0.5 ? 'y' : 'z';
    const was = table.stations[station]?.points[point];
    if (was === undefined) throw new Error(`no point ${point} on station ${station}`);
    const rightMm = side === 'y' ? was.yMm : was.zMm;
    const mm = slip(rightMm, draw);
    if (Math.abs(mm - rightMm) < leastMm) continue;
    const told = slipsIn(withSlip(table, { station, point, side, mm }, write));
    of += 1;
    if (told.some(({ at }) => at.row === was.yCell.row && at.column === side)) found += 1;
    if (told.some(({ at }) => at.row !== was.yCell.row)) others += 1;
  }
  return { of, found: found / of, others: others / of };
}

/** A figure misread, two changed about, the last one lost. */
function figureSlip(mm: number, draw: () => number): number {
  const text = `${Math.round(mm)}`;
  const kind = Math.floor(3 * draw());
  const at = Math.floor((text.length - (kind === 1 ? 1 : 0)) * draw());
  if (kind === 0)
    return Number(`${text.slice(0, at)}${(Number(text[at]) + 1 + Math.floor(9 * draw())) % 10}${text.slice(at + 1)}`);
  if (kind === 1) return Number(`${text.slice(0, at)}${text[at + 1] ?? ''}${text[at]}${text.slice(at + 2)}`);
  return Math.floor(mm / 10);
}
const footOrInches = (mm: number, draw: () => number): number =>
  mm + (draw() < 0.5 ? 304.8 : 25.4 * (4 + Math.floor(6 * draw()))) * (mm > 400 && draw() < 0.5 ? -1 : 1);

describe('slips of the pen', () => {
  test('millimetres: of those over 40 mm nine in ten are blamed on their own cell, hardly ever anyone else', () => {
    const { of, found, others } = rates(cases(100), 1, 40, figureSlip, (mm) => `${mm}`);
    expect(of).toBeGreaterThan(cases(40));
    expect(found).toBeGreaterThan(0.9);
    expect(others).toBeLessThan(0.05);
  });

  test('feet, inches and eighths: of those over 100 mm more than eight in ten', () => {
    const { of, found, others } = rates(cases(100), EIGHTH_MM, 100, footOrInches, inEighths);
    expect(of).toBeGreaterThan(cases(40));
    expect(found).toBeGreaterThan(0.8);
    expect(others).toBeLessThan(0.05);
  });

  test.each([
    ['exact', 0],
    ['rounded to 1 mm', 1],
    ['rounded to 1/8 inch', EIGHTH_MM],
    ['rounded to 10 mm', 10],
  ])('no fair table is accused: %s (25 hulls, or a quarter)', (_, stepMm) => {
    for (let i = 0; i < cases(25); i++)
      expect(standingOff(offsetsOf(randomHull(chance(11_000 + i)), STATIONS, POINTS, stepMm))).toEqual({
        slips: [],
        odd: [],
      });
  });

  test('says the cell, what stands there, and what would be fair in the same notation', () => {
    const table = offsetsOf(randomHull(chance(77)), STATIONS, POINTS, EIGHTH_MM);
    const right = table.stations[9]?.points[8];
    if (right === undefined) throw new Error('no point 8 on station 9');
    const slip = withSlip(table, { station: 9, point: 8, side: 'y', mm: right.yMm + 304.8 }, inEighths);
    const [told, ...rest] = slipsIn(slip);
    expect(rest).toEqual([]);
    expect(told).toMatchObject({
      code: 'off-the-fair-line',
      at: { file: 'offsets.csv', row: right.yCell.row, column: 'y' },
      found: expect.stringContaining(`"${inEighths(right.yMm + 304.8)}" on station 9`),
    });
    const fair =
      /about (\d+)-(\d+)-(\d)/
        .exec(told?.wanted ?? '')
        ?.slice(1)
        .map(Number) ?? [];
    const fairMm = (fair[0] ?? 0) * 304.8 + (fair[1] ?? 0) * 25.4 + (fair[2] ?? 0) * EIGHTH_MM;
    expectClose(fairMm, right.yMm, 5, 'what would be fair');
    expect(told?.wanted).toContain('perhaps the feet are wrong');
  });

  test('names both figures of the point, for on a slope a wrong half-breadth and a wrong height look alike', () => {
    const table = offsetsOf(randomHull(chance(77)), STATIONS, POINTS, 1);
    const right = table.stations[9]?.points[10];
    if (right === undefined) throw new Error('no point 10 on station 9');
    const [told] = slipsIn(withSlip(table, { station: 9, point: 10, side: 'y', mm: right.yMm + 300 }, (mm) => `${mm}`));
    expect(told?.wanted).toContain(
      `look up both figures of this point in the lines plan, y "${right.yMm + 300}" and z "${right.zMm}"`,
    );
  });

  test('half-breadth and height exchanged: nine in ten are told, as that, and no one else', () => {
    let [of, found, others] = [0, 0, 0];
    for (let i = 0; i < cases(80); i++) {
      const draw = chance(52_000 + i);
      const table = offsetsOf(randomHull(draw), STATIONS, POINTS, 1);
      const [station, point] = [1 + Math.floor(19 * draw()), 1 + Math.floor(13 * draw())];
      const was = table.stations[station]?.points[point];
      if (was === undefined || Math.abs(was.yMm - was.zMm) < 40) continue;
      const write = (mm: number): string => `${mm}`;
      const once = withSlip(table, { station, point, side: 'y', mm: was.zMm }, write);
      const told = slipsIn(withSlip(once, { station, point, side: 'z', mm: was.yMm }, write));
      of += 1;
      if (told.some(({ at, wanted }) => at.row === was.yCell.row && wanted.includes('changed places'))) found += 1;
      if (told.some(({ at }) => at.row !== was.yCell.row)) others += 1;
    }
    expect(of).toBeGreaterThan(cases(50));
    expect(found / of).toBeGreaterThan(0.9);
    expect(others / of).toBeLessThan(0.05);
  });

  test('a figure that is off by no usual slip is told too, as odd: nine in ten of 30 to 200 mm, and no one else', () => {
    let [told, others] = [0, 0];
    for (let i = 0; i < cases(80); i++) {
      const draw = chance(33_000 + i);
      const table = offsetsOf(randomHull(draw), STATIONS, POINTS, 1);
      const [station, point] = [1 + Math.floor(19 * draw()), 1 + Math.floor(13 * draw())];
      const was = table.stations[station]?.points[point];
      if (was === undefined) throw new Error(`no point ${point} on station ${station}`);
      const byMm = (30 + 170 * draw()) * (draw() < 0.5 ? -1 : 1);
      const mm = Math.max(1, Math.round(was.yMm + byMm));
      const { slips, odd } = standingOff(withSlip(table, { station, point, side: 'y', mm }, (figure) => `${figure}`));
      const rows = [...slips, ...odd].map(({ at }) => at.row);
      told += rows.includes(was.yCell.row) ? 1 : 0;
      others += rows.some((row) => row !== was.yCell.row) ? 1 : 0;
    }
    expect(told / cases(80)).toBeGreaterThanOrEqual(0.9);
    expect(others / cases(80)).toBeLessThan(0.075);
  });

  test('two slips in one table are both told', () => {
    const table = offsetsOf(randomHull(chance(78)), STATIONS, POINTS, 1);
    const [a, b] = [table.stations[5]?.points[9], table.stations[14]?.points[4]];
    if (a === undefined || b === undefined) throw new Error('no such points');
    const write = (mm: number): string => `${mm}`;
    const hundredsWrong = (mm: number): number => (mm % 1000 < 800 ? mm + 200 : mm - 200);
    const both = withSlip(
      withSlip(table, { station: 5, point: 9, side: 'y', mm: hundredsWrong(a.yMm) }, write),
      { station: 14, point: 4, side: 'y', mm: hundredsWrong(b.yMm) },
      write,
    );
    expect(
      slipsIn(both)
        .map(({ at }) => at.row)
        .sort(),
    ).toEqual([b.yCell.row, a.yCell.row].sort());
  });

  test('a feature of the shape is none: a chine that is marked, a bulge that runs over three stations', () => {
    const chined = offsetTable(
      evenly(0, 9000, 19),
      (x) => {
        const full = Math.sin(Math.PI * (0.1 + 0.8 * (x / 9000)));
        return [...evenly(0, 1, 6).map((t) => [50 + 700 * full * t, 180 * t] as const)]
          .map(([y, z], i) => (i === 5 ? ([y, z, 'knuckle'] as const) : ([y, z] as const)))
          .concat(evenly(0.2, 1, 5).map((t) => [50 + 700 * full + 120 * t, 180 + 600 * t] as const));
      },
      1,
    );
    expect(slipsIn(chined)).toEqual([]);
    const hull = randomHull(chance(79));
    const bulged = offsetTable(
      evenly(0, hull.traits.lengthMm, STATIONS),
      (x) => {
        const near = Math.exp(-(((x / hull.traits.lengthMm - 0.6) / 0.06) ** 2));
        return hull
          .section(x, POINTS)
          .map(([y, z], j) => [y + 45 * near * Math.exp(-(((j - 8) / 2) ** 2)), z] as const);
      },
      1,
    );
    expect(slipsIn(bulged)).toEqual([]);
  });
});
