/** What stations cannot be a hull. */
import { expect, test } from 'vitest';
import { ProblemList } from '../../../server/wire/problem/problemList.ts';
import { checkStations } from '../../../server/wire/table/checkStations.ts';
import type { DraftStation } from '../../../server/wire/table/draftStation.ts';

type At = readonly [yMm: number, zMm: number, knuckle?: 'knuckle'];

function stationAt(xMm: number, points: readonly At[]): DraftStation {
  const cell = (row: number, column: string, mm: number) => ({ row, column, text: `${mm}` });
  return {
    label: `${xMm}`,
    xMm,
    xCell: cell(0, 'x', xMm),
    points: points.map(([yMm, zMm, knuckle], i) => ({
      yMm,
      zMm,
      isKnuckle: knuckle !== undefined,
      yCell: cell(i + 1, 'y', yMm),
      zCell: cell(i + 1, 'z', zMm),
    })),
  } as DraftStation;
}
function told(...stations: readonly DraftStation[]) {
  const problems = new ProblemList();
  checkStations('offsets.csv', stations, problems);
  const result = problems.result(null);
  return result.ok
    ? []
    : result.problems.map(({ code, at, wanted }) => ({ code, row: at.row, column: at.column, wanted }));
}
const PLAIN: readonly At[] = [
  [0, 0],
  [300, 100],
  [500, 400],
];

test('two stations in order are a hull', () => {
  expect(told(stationAt(0, PLAIN), stationAt(500, PLAIN))).toEqual([]);
});

test.each([
  [119, true],
  [121, false],
])('a section that turns by %i degrees from one chord to the next: in order %s', (turnDeg, isInOrder) => {
  const rad = (turnDeg * Math.PI) / 180;
  const bent: readonly At[] = [
    [500, 0],
    [600, 0],
    [600 + 50 * Math.cos(rad), 50 * Math.sin(rad)],
  ];
  const found = told(stationAt(0, bent), stationAt(500, PLAIN));
  expect(found.map(({ code, row, column }) => [code, row, column])).toEqual(
    isInOrder ? [] : [['out-of-order', 2, 'z']],
  );
});

test('stations come from forward, each clear behind the one before', () => {
  const at = (xMm: number) => told(stationAt(500, PLAIN), stationAt(xMm, PLAIN)).map(({ code }) => code);
  expect([499, 500, 500.01, 500.02].map(at)).toEqual([['out-of-order'], ['out-of-order'], ['out-of-order'], []]);
});

test('a point is told that stands twice, or on the other side of the middle line', () => {
  const again: readonly At[] = [...PLAIN, [300, 100.005]];
  expect(told(stationAt(0, again), stationAt(500, PLAIN))).toMatchObject([
    { code: 'out-of-order', row: 4, wanted: expect.stringContaining('the point of row 2 again') },
  ]);
  expect(told(stationAt(0, [[-1, 0], ...PLAIN.slice(1)]), stationAt(500, PLAIN))).toMatchObject([
    { code: 'out-of-range', row: 1, column: 'y' },
  ]);
});

test('one station, one point on a station, or more stations than a lines plan has are none', () => {
  expect(told(stationAt(0, PLAIN)).map(({ code }) => code)).toEqual(['too-few']);
  expect(told(stationAt(0, PLAIN.slice(0, 1)), stationAt(500, PLAIN)).map(({ code }) => code)).toEqual(['too-few']);
  const many = (count: number) => Array.from({ length: count }, (_, i) => stationAt(100 * i, PLAIN));
  expect(told(...many(150))).toEqual([]);
  expect(told(...many(151)).map(({ code }) => code)).toEqual(['too-many']);
});

test('a knuckle must be marked on every station; at the ends of a section it is none', () => {
  const knuckled: readonly At[] = [
    [0, 0],
    [300, 100, 'knuckle'],
    [500, 400],
  ];
  expect(told(stationAt(0, knuckled), stationAt(500, knuckled))).toEqual([]);
  expect(told(stationAt(0, knuckled), stationAt(500, PLAIN))).toMatchObject([
    { code: 'missing', row: 1, wanted: expect.stringContaining('1, as on other stations') },
  ]);
  const atTheEnd: readonly At[] = [
    [0, 0, 'knuckle'],
    [300, 100],
    [500, 400, 'knuckle'],
  ];
  expect(told(stationAt(0, atTheEnd), stationAt(500, PLAIN))).toEqual([]);
});
