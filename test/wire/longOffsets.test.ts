/** The long form of the table of offsets: a point a row; and the fields of a job that go with a table. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { describeProblem, type Problem } from '../../server/core/errors.ts';
import { makePlan } from '../../server/core/makePlan.ts';
import { parseJob } from '../../server/wire/job/parseJob.ts';
import { parseOffsets } from '../../server/wire/table/parseOffsets.ts';

const rows = (...lines: readonly string[]): string => ['station,x,y,z', ...lines, ''].join('\n');
const BOX = ['A,0,100,0', 'A,0,400,200', 'A,0,500,600', 'B,900,100,0', 'B,900,450,190', 'B,900,560,590'];

const problems = (text: string, units: 'mm' | 'in' = 'mm'): readonly Problem[] => {
  const parsed = parseOffsets('offsets.csv', text, units);
  return parsed.ok ? [] : parsed.problems;
};
const spoilt = (row: number, to: string): string => rows(...BOX.map((line, i) => (i === row - 1 ? to : line)));

describe('the long form', () => {
  test('is read: stations by name, points in order, cells with their places', () => {
    const parsed = parseOffsets('offsets.csv', rows(...BOX), 'mm');
    if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
    expect(parsed.value.stations.map(({ label, xMm, points }) => [label, xMm, points.length])).toEqual([
      ['A', 0, 3],
      ['B', 900, 3],
    ]);
    expect(parsed.value.stations[1]?.points[1]).toMatchObject({
      yMm: 450,
      zMm: 190,
      isKnuckle: false,
      zCell: { row: 5, column: 'z', text: '190' },
    });
  });

  test('feet-inches-eighths, decimals with their unit, and inches are one and the same', () => {
    const written = ['A,0,0-4-0,0', 'A,0,1-4-1+,0-8-0', 'B,3-0-0,0-4-0,0', 'B,3-0-0,1-6-0+-,0-7-4'];
    const parsed = parseOffsets('offsets.csv', rows(...written), 'in');
    const inches = parseOffsets('offsets.csv', rows('A,0,4,0', 'A,0,16.1875,8', 'B,36,4,0', 'B,36,18.03125,7.5'), 'in');
    if (!parsed.ok || !inches.ok) throw new Error('not read');
    const figures = (of: typeof parsed.value) =>
      of.stations.flatMap(({ xMm, points }) => points.flatMap(({ yMm, zMm }) => [xMm, yMm, zMm]));
    figures(parsed.value).forEach((mm, i) => {
      expect(mm).toBeCloseTo(figures(inches.value)[i] ?? Number.NaN, 9);
    });
  });

  test.each([
    ['a point twice', spoilt(2, 'A,0,100,0'), { code: 'out-of-order', at: { row: 2, column: 'y' } }],
    [
      'points that double back',
      rows('A,0,100,0', 'A,0,500,600', 'A,0,400,200', 'A,0,520,900', ...BOX.slice(3)),
      { code: 'out-of-order', at: { row: 2, column: 'z' } },
    ],
    [
      'stations out of order',
      rows(...BOX.slice(3), ...BOX.slice(0, 3)),
      { code: 'out-of-order', at: { row: 4, column: 'x' } },
    ],
    [
      'a station taken up again',
      rows(...BOX, 'A,0,520,700'),
      { code: 'out-of-order', at: { row: 7, column: 'station' } },
    ],
    ['a station in two planes', spoilt(3, 'A,50,500,600'), { code: 'out-of-order', at: { row: 3, column: 'x' } }],
    ['a cell in the other measure', spoilt(5, 'B,900,1-5-6,190'), { code: 'mixed-units', at: { row: 5, column: 'y' } }],
    [
      'a trailing minus that is read in two ways',
      spoilt(5, 'B,900,1-5-6-,190'),
      { code: 'ambiguous-length', at: { row: 5, column: 'y' } },
    ],
    ['an empty cell', spoilt(5, 'B,900,,190'), { code: 'missing', at: { row: 5, column: 'y' } }],
    ['a half-breadth below nothing', spoilt(4, 'B,900,-100,0'), { code: 'out-of-range', at: { row: 4, column: 'y' } }],
    ['a single station', rows(...BOX.slice(0, 3)), { code: 'too-few', at: { file: 'offsets.csv' } }],
    ['a station of one point', rows(...BOX, 'C,1800,100,0'), { code: 'too-few', at: { row: 7 } }],
    [
      'more stations than a lines plan has',
      rows(...Array.from({ length: 151 }, (_, i) => [`${i},${10 * i},100,0`, `${i},${10 * i},300,200`]).flat()),
      { code: 'too-many', at: { file: 'offsets.csv' } },
    ],
    ['no name', spoilt(1, ',0,100,0'), { code: 'missing', at: { row: 1, column: 'station' } }],
  ])('%s is told with its place', (_, text, wanted) => {
    const told = problems(text);
    expect(told.find(({ code }) => code === wanted.code)?.at).toMatchObject(wanted.at);
  });

  test('a knuckle that some stations lack', () => {
    const text = ['station,x,y,z,knuckle', ...BOX.map((line, i) => `${line},${i === 1 ? 'yes' : ''}`), ''].join('\n');
    expect(problems(text)).toMatchObject([
      { code: 'missing', at: { row: 4 }, wanted: expect.stringContaining('as on other stations') },
    ]);
    expect(problems(text.replace(',yes', ',perhaps'))[0]).toMatchObject({
      code: 'wrong-type',
      at: { row: 2, column: 'knuckle' },
    });
  });
});

/** The demo's boat; `change` gets its rows, without the heading. */
function oddment(change: (points: readonly string[]) => readonly string[]): readonly Problem[] {
  const lines = DEMO.split('\n').filter((line) => line !== '' && !line.startsWith('#'));
  return problems(rows(...change(lines.slice(1))));
}
const DEMO = readFileSync(new URL('../../server/demo/offsets.csv', import.meta.url), 'utf8');
const isOf = (station: string) => (line: string) => line.startsWith(`${station},`);
/** The points of these stations the other way round. */
const turned = (points: readonly string[], stations: readonly string[]): string[] => {
  const names = [...new Set(points.map((line) => line.slice(0, line.indexOf(','))))];
  return names.flatMap((name) => {
    const own = points.filter(isOf(name));
    return stations.includes(name) ? own.toReversed() : own;
  });
};
const described = (told: readonly Problem[]): string[] => told.map(describeProblem);

describe('stations whose points run from the sheer down', () => {
  test.each([['0'], ['3'], ['4'], ['12']])('one among good ones is named: %s', (station) => {
    const told = oddment((points) => turned(points, [station]));
    expect(told).toMatchObject([{ code: 'out-of-order', at: { row: 1 + 12 * Number(station), column: 'z' } }]);
    expect(described(told)[0]).toContain(`list the points of station ${station} the other way round`);
  });

  test('two are named each, and a whole table in one line', () => {
    expect(oddment((points) => turned(points, ['2', '7'])).map(({ at }) => at.row)).toEqual([25, 85]);
    const all = oddment((points) =>
      points.toReversed().toSorted((a, b) => Number.parseFloat(a) - Number.parseFloat(b)),
    );
    expect(all).toMatchObject([{ code: 'out-of-order', at: { row: 1, column: 'z' } }]);
    expect(all[0]?.wanted).toContain('every station the other way round');
  });

  test('a flat floor alone is told by its half-breadths', () => {
    const floor = ['A,0,60,100', 'A,0,300,100', 'A,0,500,100', 'B,900,60,100', 'B,900,300,100', 'B,900,560,100'];
    expect(problems(rows(...floor))).toEqual([]);
    expect(problems(rows(...turned(floor, ['B'])))).toMatchObject([
      { code: 'out-of-order', at: { row: 4 }, wanted: expect.stringContaining('station B') },
    ]);
  });

  test('what dips, tumbles home or stands plumb is none', () => {
    const station = (name: string, x: number): string[] =>
      [
        [60, 120],
        [200, 90],
        [500, 140],
        [800, 500],
        [800, 900],
        [620, 1250],
      ].map(([y, z]) => `${name},${x},${y},${z}`);
    expect(problems(rows(...station('A', 0), ...station('B', 900)))).toEqual([]);
  });

  test('a wrong figure at the sheer is not taken for one', () => {
    const told = oddment((points) => points.map((line) => line.replace('3,1800,868,1399', '3,1800,868,139')));
    expect(told.length).toBeGreaterThan(0);
    expect(described(told).join()).not.toContain('the other way round');
  });
});

describe('one line for one fault', () => {
  const cell = (row: number, column: number, to: string) => (points: readonly string[]) =>
    points.map((line, i) =>
      i === row - 1
        ? line
            .split(',')
            .map((was, k) => (k === column ? to : was))
            .join(',')
        : line,
    );

  test.each([
    ['next to itself', 40],
    ['further on', 43],
  ])('a point repeated %s is named where it is repeated', (_, after) => {
    const told = oddment((points) => [...points.slice(0, after), points[39] ?? '', ...points.slice(after)]);
    expect(told).toMatchObject([{ code: 'out-of-order', at: { row: after + 1, column: 'y' } }]);
    expect(told[0]?.wanted).toContain('the point of row 40 again');
    expect(told[0]?.wanted).toContain('delete one of the two');
  });

  test('a blank station', () => {
    expect(oddment(cell(40, 0, ''))).toMatchObject([{ code: 'missing', at: { row: 40, column: 'station' } }]);
    expect(oddment(cell(1, 0, ''))).toHaveLength(1);
    expect(oddment(cell(37, 0, ''))).toHaveLength(1);
  });

  test('a negative half-breadth', () => {
    expect(oddment(cell(40, 2, '-20'))).toMatchObject([{ code: 'out-of-range', at: { row: 40, column: 'y' } }]);
  });

  test.each([
    ['stations by number', DEMO],
    ['stations by letter', rows(...BOX)],
  ])('no heading row: %s', (_, table) => {
    const told = problems(table.replace('station,x,y,z\n', ''));
    expect(told).toHaveLength(1);
    expect(described(told)[0]).toContain('station,x,y,z');
  });
});

test('a station whose place is misread is warned of at its x, and planned', () => {
  const text = DEMO.replaceAll('\n4,2400,', '\n4,2500,');
  const job = { format: 'by-the-mark/job@1', units: 'mm', frame: { siding: 40 } };
  const parsed = parseJob({ ...job, shape: { offsets: 'o.csv', at: 1950 } }, { 'o.csv': text });
  const made = parsed.ok ? makePlan(parsed.value) : parsed;
  expect(made.ok && made.value.warnings.filter(({ code }) => code === 'off-the-fair-line')).toMatchObject([
    { message: expect.stringMatching(/row 49, column x: "2500" as the place of station 4.*2400/) },
  ]);
});

describe('the shape of a job from offsets', () => {
  const job = { format: 'by-the-mark/job@1', units: 'mm', frame: { siding: 40 } };
  const files = { 'offsets.csv': rows(...BOX) };
  const parse = (shape: object) => parseJob({ ...job, shape: { offsets: 'offsets.csv', at: 300, ...shape } }, files);

  test('has its fields, in mm and degrees', () => {
    const parsed = parse({ planking: '3/4 in', cantDeg: 8, fairing: 0.5, frames: [100, 300, '0.5 m'], asDrawn: true });
    if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
    expect(parsed.value.shape).toMatchObject({
      kind: 'offsets',
      atMm: 300,
      plankingMm: 19.05,
      cantDeg: 8,
      fairingMm: 0.5,
      framesMm: [100, 300, 500],
      isAsDrawn: true,
    });
    const plain = parse({});
    expect(plain.ok && plain.value.shape).toMatchObject({ plankingMm: 0, cantDeg: 0, framesMm: [], isAsDrawn: false });
  });

  test.each([
    ['a cant that is no angle', { cantDeg: 'ten' }, 'shape.cantDeg'],
    ['frames out of order', { frames: [300, 100] }, 'shape.frames[1]'],
    ['planking below nothing', { planking: -3 }, 'shape.planking'],
    ['a pattern beside offsets', { pattern: 'p.csv' }, 'shape.pattern'],
    ['as drawn, but not yes or no', { asDrawn: 'yes' }, 'shape.asDrawn'],
    ['no place', { at: undefined }, 'shape.at'],
  ])('%s', (_, shape, field) => {
    const parsed = parse(shape);
    expect(parsed.ok ? [] : parsed.problems.map(({ at }) => at.field)).toContain(field);
  });

  test.each([
    ['a place beyond the stations', { at: 901 }, 'shape.at'],
    ['a cant that carries the frame out of the hull', { at: 20, cantDeg: -60 }, 'shape.cantDeg'],
  ])('%s is refused by the plan, with what could be', (_, shape, field) => {
    const parsed = parse(shape);
    const made = parsed.ok ? makePlan(parsed.value) : parsed;
    expect(made.ok ? [] : made.problems).toMatchObject([
      { code: 'out-of-range', at: { field }, wanted: expect.stringContaining('900 mm') },
    ]);
  });
});
