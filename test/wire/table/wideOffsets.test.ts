/** The traditional wide table of offsets, read. */
import { describe, expect, test } from 'vitest';
import type { Problem } from '../../../server/core/errors.ts';
import { fairHull } from '../../../server/core/hull/fairHull.ts';
import { misplacedStations } from '../../../server/core/hull/misplaced.ts';
import type { OffsetTable } from '../../../server/core/hull/offsets.ts';
import { slipsIn } from '../../../server/core/hull/slips.ts';
import type { Units } from '../../../server/wire/length/parseLength.ts';
import { parseOffsets } from '../../../server/wire/table/parseOffsets.ts';
import { chance } from '../../core/frame/fairFrames.ts';
import { randomHull } from '../../core/hull/analyticHull.ts';
import { bevelError } from '../../core/hull/bevelError.ts';
import { evenly } from '../../kit/offsetTable.ts';
import { traditional, wideTable } from '../../kit/wideTable.ts';

function read(text: string, units: Units = 'mm'): OffsetTable {
  const parsed = parseOffsets('offsets.csv', text, units);
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  return parsed.value;
}
function problems(text: string, units: Units = 'mm'): readonly Problem[] {
  const parsed = parseOffsets('offsets.csv', text, units);
  return parsed.ok ? [] : parsed.problems;
}
const pointsOf = (table: OffsetTable, station: number) =>
  (table.stations[station]?.points ?? []).map(({ yMm, zMm }) => [yMm, zMm]);

const SMALL = `# an invented skiff
line,        A,      B,      C
x,           0-0-0,  2-0-0,  4-0-0
Half-breadths
Sheer,       0-6-4,  1-10-2, 2-1-1+
WL 1-0-0,    0-4-0,  1-6-4+-, 1-9-0
WL 0-6-0,    ,       0-11-0++, 1-4-0
Rabbet,      0-1-4,  0-1-4,  0-1-4
Heights
Sheer,       2-3-0,  2-0-4,  1-11-0
Buttock 0-6-0, ,     0-3-4,  0-2-2
Rabbet,      0-8-0,  0-1-0,  0-0-4
`;
const inch = 25.4;

describe('a wide table', () => {
  test('of feet, inches and eighths: points from the keel up, blanks where a line does not meet a station', () => {
    const table = read(SMALL);
    expect(table.stations.map(({ label }) => label)).toEqual(['A', 'B', 'C']);
    expect(table.stations.map(({ xMm }) => Math.round(xMm * 10))).toEqual([0, 6096, 12_192]);
    expect(pointsOf(table, 0).map((at) => at.map((mm) => mm / inch))).toEqual(
      [
        [1.5, 8],
        [4, 12],
        [6.5, 27],
      ].map((at) => at.map((inches) => expect.closeTo(inches, 9))),
    );
    const [rabbet, buttock, low, high, sheer] = pointsOf(table, 1);
    expect(rabbet?.[1]).toBeCloseTo(inch, 9);
    expect(buttock?.[0]).toBeCloseTo(6 * inch, 9);
    expect(buttock?.[1]).toBeCloseTo(3.5 * inch, 9);
    expect(low?.[0]).toBeCloseTo((11 + 3 / 32) * inch, 9);
    expect(high?.[0]).toBeCloseTo((18.5 + 1 / 32) * inch, 9);
    expect(sheer?.[0]).toBeCloseTo(22.25 * inch, 9);
    expect(table.stations[2]?.points.at(-1)?.yMm).toBeCloseTo((25.125 + 1 / 16) * inch, 9);
  });

  test.each(['', '-', '\u2014', '..'])('a station that stands nowhere (%j) is named', (blank) => {
    expect(problems(SMALL.replace('2-0-0,  4-0-0', `${blank},  4-0-0`))).toEqual([
      {
        code: 'missing',
        at: { file: 'offsets.csv', row: 1, column: 'B' },
        found: blank === '' ? 'an empty cell' : JSON.stringify(blank),
        wanted: 'where station B stands, a length',
      },
    ]);
  });

  test('tells where each figure stands', () => {
    const point = read(SMALL).stations[1]?.points[2];
    expect(point?.yCell).toMatchObject({ row: 5, column: 'B', text: '0-11-0++' });
  });

  test('metric and decimal: mm, metres with their unit, inches', () => {
    const metric =
      'line,0,1500,3000\nWL 200,100,300,320\nKeel height,20,0,0\nSheer half-breadth,180,420,440\nSheer height,800,700,690\n';
    expect(pointsOf(read(metric), 1)).toEqual([
      [0, 0],
      [300, 200],
      [420, 700],
    ]);
    const metres = metric.replace('180,420,440', '0.18 m,0.42 m,0.44 m');
    expect(pointsOf(read(metres), 1)).toEqual(pointsOf(read(metric), 1));
    const inches =
      'line,0,60,120\nWL 10.5,4,12.25,13\nKeel height,1,0,0\nSheer half-breadth,7,17,18\nSheer height,32,28,27\n';
    expect(pointsOf(read(inches, 'in'), 1)[1]).toEqual([12.25 * inch, 10.5 * inch]);
  });

  test('where there is a rabbet, a section begins at it, and a keel below says nothing', () => {
    const withKeel = SMALL.replace('Heights\n', 'Heights\nKeel,0-4-0,0-0-0,0-0-0\n');
    expect(pointsOf(read(withKeel), 1)).toEqual(pointsOf(read(SMALL), 1));
  });

  test('a chine is a knuckle on every station', () => {
    const chined = SMALL.replace(
      'Heights\n',
      'Chine half-breadth,0-5-0,1-2-0,1-6-0\nHeights\nChine height,1-3-0,0-8-0,0-7-0\n',
    );
    const { stations } = read(chined);
    expect(stations.map(({ points }) => points.filter(({ isKnuckle }) => isKnuckle).length)).toEqual([1, 1, 1]);
  });
});

function kindInEachRow(table: string): string {
  let kind = '';
  return table
    .split('\n')
    .flatMap((line) => {
      if (/^(Half-breadths|Heights)$/.test(line)) {
        kind = line === 'Heights' ? 'height' : 'half-breadth';
        return [];
      }
      return [line.replace(/^(Sheer|Rabbet),/, `$1 ${kind},`)];
    })
    .join('\n');
}

describe('other ways to write the same table', () => {
  const same = read(SMALL);
  const points = (table: OffsetTable) => table.stations.map((_, i) => pointsOf(table, i));

  test.each([
    ['the kind in each row', kindInEachRow(SMALL)],
    [
      'stations named, a comma at the end of every row',
      SMALL.replace('A,      B,      C', 'Sta A, Sta B, Sta C').replace(/,? *$/gm, ','),
    ],
    [
      'waterlines and buttocks with a number beside their level',
      SMALL.replace('WL 1-0-0', 'W.L. 2 = 1-0-0')
        .replace('WL 0-6-0', 'Waterline 1 at 0-6-0')
        .replace('Buttock 0-6-0', 'Buttock A (0-6-0)'),
    ],
    [
      'a dash where a line does not meet a station',
      SMALL.replace('WL 0-6-0,    ,', 'WL 0-6-0,  -  ,').replace('Buttock 0-6-0, ,', 'Buttock 0-6-0, —,'),
    ],
    ['the stations named again over the heights', SMALL.replace('Heights\n', 'Heights,A,B,C\n')],
    ['a title in the corner', SMALL.replace('line,', 'Table of offsets,')],
    ['their distances from the bow', SMALL.replace('x,  ', 'Distance from bow,')],
    ['other dashes between feet, inches and eighths', SMALL.replaceAll('1-10-2', '1\u201310\u20132')],
    [
      'two columns of titles',
      `,,A,B,C
,x,0-0-0,2-0-0,4-0-0
Half-breadths,Sheer,0-6-4,1-10-2,2-1-1+
,WL 1-0-0,0-4-0,1-6-4+-,1-9-0
,WL 0-6-0,,0-11-0++,1-4-0
,Rabbet,0-1-4,0-1-4,0-1-4
Heights,Sheer,2-3-0,2-0-4,1-11-0
,Buttock 0-6-0,,0-3-4,0-2-2
,Rabbet,0-8-0,0-1-0,0-0-4
`,
    ],
  ])('%s', (_, text) => {
    expect(points(read(text))).toEqual(points(same));
  });

  test('waterlines that are numbered only are asked for their height, diagonals are to be left out', () => {
    const numbered = SMALL.replace('WL 1-0-0', 'WL 2').replace('WL 0-6-0', 'WL 1');
    for (const units of ['mm', 'in'] as const)
      expect(problems(numbered, units)).toMatchObject([
        { code: 'missing', found: 'waterlines 1, 2', wanted: expect.stringContaining('"WL 1 at 0-8-0"') },
      ]);
    expect(problems(SMALL.replace('WL 1-0-0', 'Diagonal A'))[0]?.wanted).toContain('leave these rows out');
  });
});

describe('a whole hull by waterlines and buttocks', () => {
  const hull = randomHull(chance(41));
  const STATIONS = 21;
  const lines = {
    stations: evenly(0, hull.traits.lengthMm, STATIONS).map((xMm, i) => ({
      name: `${i}`,
      xMm,
      section: hull.section(xMm, 400),
    })),
    waterlinesMm: evenly(150, 1650, 11),
    buttocksMm: evenly(150, 1350, 7),
  };

  test.each([
    ['to the millimetre', (mm: number) => `${Math.round(mm)}`, 'mm', 0.5],
    ['in inches with two decimals', (mm: number) => (mm / inch).toFixed(2), 'in', 0.5],
    ['in feet, inches and eighths with plus and minus', (mm: number) => traditional(mm), 'in', 0.5],
    ['in feet, inches and eighths', (mm: number) => traditional(mm, false), 'in', 1],
  ] as const)('%s: it is read, fair, and gives its bevels', (_, write, units, mostDeg) => {
    const table = read(wideTable({ ...lines, write }), units);
    expect(table.stations).toHaveLength(STATIONS);
    expect(slipsIn(table)).toEqual([]);
    const { maxDeg, rmsDeg } = bevelError(hull, fairHull(table).surface, STATIONS, 9);
    expect(maxDeg).toBeLessThan(mostDeg);
    expect(rmsDeg).toBeLessThan(mostDeg / 6);
  });
});

test('no fair wide table is accused of a slip, whatever lines it has (40 tables)', () => {
  for (let i = 0; i < 40; i++) {
    const draw = chance(700 + i);
    const other = randomHull(draw);
    const count = 9 + Math.floor(14 * draw());
    const stations = evenly(0, other.traits.lengthMm, count).map((xMm, k) => ({
      name: `s${k}`,
      xMm,
      section: other.section(xMm, 400),
    }));
    const top = Math.max(...stations.map(({ section }) => section.at(-1)?.[1] ?? 0));
    const wide = Math.max(...stations.map(({ section }) => section.at(-1)?.[0] ?? 0));
    const text = wideTable({
      stations,
      waterlinesMm: evenly(0.08 * top, 0.95 * top, 5 + Math.floor(8 * draw())).map(Math.round),
      buttocksMm: evenly(0.12 * wide, 0.9 * wide, 2 + Math.floor(6 * draw())).map(Math.round),
      write: (mm) => traditional(mm, i % 2 === 0),
    });
    const table = read(text, 'in');
    expect(slipsIn(table)).toEqual([]);
    expect(misplacedStations(table).problems).toEqual([]);
  }
});

describe('what is wrong with a wide table is told with its place', () => {
  test.each([
    ['an ambiguous trailing minus', '1-6-4+-', '1-6-4-', { code: 'ambiguous-length', at: { row: 4, column: 'B' } }],
    ['no length at all', '0-4-0', 'four', { code: 'not-a-length', at: { row: 4, column: 'A' } }],
    ['a metric cell', '0-11-0++', '282 mm', { code: 'mixed-units', at: { row: 5, column: 'B' } }],
    ['a line twice', 'WL 0-6-0,', 'WL 1-0-0,', { code: 'out-of-order', at: { row: 5, column: 'line' } }],
    [
      'stations out of order',
      '2-0-0,  4-0-0\nHalf',
      '4-0-0,  2-0-0\nHalf',
      { code: 'out-of-order', at: { column: 'C' } },
    ],
    ['no places', 'x,           0-0-0,  2-0-0,  4-0-0\n', '', { code: 'missing', at: { file: 'offsets.csv' } }],
    ['a place left out', '0-0-0,  2-0-0', '0-0-0,  ', { code: 'missing', at: { row: 1, column: 'B' } }],
    ['a sheer that one station has not', '2-3-0,  2-0-4', '2-3-0, ', { code: 'missing', at: { row: 8, column: 'B' } }],
    [
      'an unknown line',
      'Sheer,       0-6',
      'Shire,       0-6',
      { code: 'unknown-name', at: { row: 3, column: 'line' } },
    ],
    ['a figure too many', '0-1-4,  0-1-4,  0-1-4', '0-1-4,0-1-4,0-1-4,0-1-4', { code: 'too-many', at: { row: 6 } }],
    ['a half-breadth below nothing', '0-4-0,', '-0-4-0,', { code: 'out-of-range', at: { row: 4, column: 'A' } }],
  ])('%s', (_, from, to, wanted) => {
    expect(SMALL).toContain(from);
    const told = problems(SMALL.replace(from, to));
    expect(told).toEqual(expect.arrayContaining([expect.objectContaining({ code: wanted.code })]));
    expect(told.find(({ code }) => code === wanted.code)?.at).toMatchObject(wanted.at);
  });

  test('stations that are numbered are not taken for places a millimetre or an inch apart', () => {
    const numbered = SMALL.replace('A,      B,      C', '0,1,2').replace(/x,.*\n/, '');
    for (const units of ['mm', 'in'] as const)
      expect(problems(numbered, units)[0]).toMatchObject({
        code: 'missing',
        wanted: expect.stringContaining('row "x"'),
      });
  });

  test('a sheer without heights, or figures that are neither', () => {
    const bare = problems(SMALL.replace('Half-breadths\n', ''));
    expect(bare[0]).toMatchObject({ code: 'missing', at: { row: 2, column: 'line' } });
  });
});
