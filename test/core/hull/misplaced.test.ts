/** Stations at a wrong place in tables of hulls known exactly: how many are found and at their own cell, and that no fair table is accused. */
import { describe, expect, test } from 'vitest';
import { misplacedStations } from '../../../server/core/hull/misplaced.ts';
import type { OffsetTable } from '../../../server/core/hull/offsets.ts';
import { evenly, offsetTable } from '../../kit/offsetTable.ts';
import { chance } from '../frame/fairFrames.ts';
import { type AnalyticHull, randomHull } from './analyticHull.ts';

const POINTS = 13;
const UNEVEN = [0, 0.5, 1, 1.5, 2, 3, 4, 5, 6, 7, 8, 9, 10, 10.5, 11, 11.5, 12].map((place) => place / 12);

/** A hull's table, its stations at whole millimetres, with their cells. */
function tableOf(hull: AnalyticHull, shares: readonly number[], stepMm: number): OffsetTable {
  const places = shares.map((share) => Math.round(share * hull.traits.lengthMm));
  return withPlaces(
    offsetTable(places, (x) => hull.section(x, POINTS), stepMm),
    (xMm) => xMm,
  );
}

/** The table with other figures for where its stations stand. */
const withPlaces = (table: OffsetTable, placeOf: (xMm: number, station: number) => number): OffsetTable => ({
  ...table,
  stations: table.stations.map((station, i) => {
    const xMm = placeOf(station.xMm, i);
    return { ...station, xMm, xCell: { row: station.points[0]?.yCell.row ?? 0, column: 'x', text: `${xMm}` } };
  }),
});

/** One figure of the place misread, so that the station stays between its neighbours; undefined where none does. */
function misread(table: OffsetTable, at: number, draw: () => number): number | undefined {
  const [before, here, after] = [at - 1, at, at + 1].map((i) => table.stations[i]?.xMm ?? Number.NaN);
  const text = `${here}`;
  const figures = [...text].flatMap((_, i) =>
    [...'0123456789'].map((figure) => Number(`${text.slice(0, i)}${figure}${text.slice(i + 1)}`)),
  );
  const spacing = (Number(after) - Number(before)) / 2;
  const possible = figures.filter((mm) => mm > Number(before) + 1 && mm < Number(after) - 1);
  const far = possible.filter((mm) => Math.abs(mm - Number(here)) > spacing / 10);
  return far[Math.floor(far.length * draw())];
}

describe('stations at a wrong place', () => {
  test.each([
    ['exact', 0],
    ['rounded to 1 mm', 1],
    ['rounded to 1/8 inch', 3.175],
    ['rounded to 10 mm', 10],
  ])('no fair table is accused: %s (60 hulls, even and uneven stations)', (_, stepMm) => {
    for (let i = 0; i < 20; i++) {
      const hull = randomHull(chance(41_000 + i));
      for (const shares of [evenly(0, 1, 9), evenly(0, 1, 17), UNEVEN])
        expect(misplacedStations(tableOf(hull, shares, stepMm)).problems).toEqual([]);
    }
  });

  test('of those misread by more than a tenth of the spacing most are told at their own cell, with the right figure, and no other', () => {
    let [of, found, right] = [0, 0, 0];
    for (let i = 0; i < 40; i++) {
      const draw = chance(43_000 + i);
      const table = tableOf(randomHull(draw), evenly(0, 1, 15), 1);
      const at = 2 + Math.floor(11 * draw());
      const mm = misread(table, at, draw);
      if (mm === undefined) continue;
      const { problems } = misplacedStations(withPlaces(table, (xMm, k) => (k === at ? mm : xMm)));
      const [station] = table.stations.slice(at);
      of += 1;
      found += problems.length;
      for (const problem of problems) {
        expect(problem).toMatchObject({
          code: 'off-the-fair-line',
          at: { row: station?.points[0]?.yCell.row, column: 'x' },
        });
        right += problem.wanted.startsWith(`${station?.xMm},`) ? 1 : 0;
      }
    }
    expect(of).toBeGreaterThan(25);
    expect(found / of).toBeGreaterThan(0.6);
    expect(right / found).toBeGreaterThan(0.9);
  });

  test('a feature of the shape is none, nor is one wrong point', () => {
    for (let i = 0; i < 10; i++) {
      const hull = randomHull(chance(45_000 + i));
      const bulged = offsetTable(
        evenly(0, hull.traits.lengthMm, 17).map(Math.round),
        (x) => {
          const near = Math.exp(-(((x / hull.traits.lengthMm - 0.6) / 0.05) ** 2));
          return hull.section(x, POINTS).map(([y, z]) => [y + 60 * near, z] as const);
        },
        1,
      );
      expect(misplacedStations(withPlaces(bulged, (xMm) => xMm)).problems).toEqual([]);
      const table = tableOf(hull, evenly(0, 1, 17), 1);
      const stations = table.stations.map((station, k) =>
        k === 7
          ? {
              ...station,
              points: station.points.map((point, j) => (j === 6 ? { ...point, yMm: point.yMm + 90 } : point)),
            }
          : station,
      );
      expect(misplacedStations({ ...table, stations }).problems).toEqual([]);
    }
  });
});
