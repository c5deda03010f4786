/** On hulls that are known exactly, unrounded: 21 stations, 15 points. */
import { describe, expect, test } from 'vitest';
import type { OffsetPoint, OffsetTable } from '../../../server/core/hull/offsets.ts';
import { type PointResidual, pointResidualReader } from '../../../server/core/hull/pointResiduals.ts';
import { expectClose } from '../../kit/close.ts';
import { chance } from '../frame/fairFrames.ts';
import { offsetsOf, randomHull } from './analyticHull.ts';

const table = offsetsOf(randomHull(chance(303)), 21, 15, 0);
const read = (of: OffsetTable, near?: { station: number; within: number }): readonly PointResidual[] =>
  pointResidualReader(of.stations.map(({ xMm }) => xMm))(of, near);
const [STATION, POINT] = [9, 8];
const pointOf = (station: number, index: number): OffsetPoint => {
  const point = table.stations[station]?.points[index];
  if (point === undefined) throw new Error(`no point ${index} on station ${station}`);
  return point;
};
/** How steep the section runs there: the sine of its angle, by the chord from the point below to the one above. */
function steepness(station: number, index: number): number {
  const [below, above] = [pointOf(station, index - 1), pointOf(station, index + 1)];
  const [dy, dz] = [above.yMm - below.yMm, above.zMm - below.zMm];
  return dz / Math.hypot(dy, dz);
}

describe('on a fair hull', () => {
  const inner = read(table).filter(({ station }) => station > 2 && station < 18);

  test('no point stands off', () => {
    for (const { offMm, awayMm } of inner) {
      expectClose(offMm, 0, 0.1, 'off');
      expectClose(awayMm, 0, 0.2, 'away');
    }
  });

  test('what would be fair is what stands there, of the half-breadth and of the height', () => {
    for (const { point, fairYMm = point.yMm, fairZMm = point.zMm } of inner) {
      expectClose(fairYMm, point.yMm, 0.1, 'half-breadth');
      expectClose(fairZMm, point.zMm, 0.1, 'height');
    }
  });

  test('a half-breadth is told where the section is steep enough, a height where it is flat enough', () => {
    for (const { station, point, fairYMm, fairZMm } of inner) {
      const index = table.stations[station]?.points.indexOf(point) ?? 0;
      if (index === 0 || index === 14) continue;
      const [steep, flat] = [steepness(station, index), Math.sqrt(1 - steepness(station, index) ** 2)];
      if (steep > 0.35) expect(fairYMm).toBeDefined();
      if (steep < 0.25) expect(fairYMm).toBeUndefined();
      if (flat > 0.35) expect(fairZMm).toBeDefined();
      if (flat < 0.25) expect(fairZMm).toBeUndefined();
    }
  });

  test('lofting over a gap of one even bay swells errors by half, beyond the ends by far more', () => {
    const swellAt = (at: number): number => read(table).find(({ station }) => station === at)?.swell ?? Number.NaN;
    // Cubic splines on even knots, the middle one left out: derived with the same weights by hand on seven stations.
    expectClose(swellAt(10), 1.5, 0.03, 'swell');
    expect(swellAt(0)).toBeGreaterThan(3);
  });
});

describe('one point that stands 60 mm too far out', () => {
  const right = pointOf(STATION, POINT);
  const wrong: OffsetTable = {
    ...table,
    stations: table.stations.map((station, i) =>
      i === STATION
        ? { ...station, points: station.points.map((p) => (p === right ? { ...p, yMm: p.yMm + 60 } : p)) }
        : station,
    ),
  };
  const onStation = read(wrong).filter(({ station }) => station === STATION);
  const found = onStation[POINT];
  if (found === undefined) throw new Error('no residual');

  test('shows all of its own error, square to the section, and the next ones half of it', () => {
    expectClose(found.offMm, 60 * steepness(STATION, POINT), 2, 'off');
    expectClose(found.awayMm, 60 * steepness(STATION, POINT), 2, 'away');
    for (const by of [-1, 1]) expectClose(onStation[POINT + by]?.offMm ?? Number.NaN, -found.offMm / 2, 4, 'beside it');
    for (const by of [-3, -2, 2, 3]) expectClose(onStation[POINT + by]?.offMm ?? Number.NaN, 0, 0.1, 'farther on');
  });

  test('is told what would be fair', () => {
    expectClose(found.fairYMm ?? Number.NaN, right.yMm, 0.1, 'half-breadth');
  });

  test('could have been meant where it was, but not beyond the points below and above it', () => {
    const meant = found.ifAt(right.yMm, right.zMm);
    expectClose(meant.offMm, 0, 0.1, 'off');
    expect(meant.isInOrder).toBe(true);
    for (const by of [-2, 2]) {
      const other = pointOf(STATION, POINT + by);
      expect(found.ifAt(other.yMm, other.zMm).isInOrder).toBe(false);
    }
  });
});

test('around one station only its neighbours are looked at; five stations tell nothing', () => {
  const stations = new Set(read(table, { station: STATION, within: 2 }).map(({ station }) => station));
  expect([...stations]).toEqual([7, 8, 9, 10, 11]);
  expect(read({ ...table, stations: table.stations.slice(0, 6) })).not.toEqual([]);
  expect(read({ ...table, stations: table.stations.slice(0, 5) })).toEqual([]);
});
