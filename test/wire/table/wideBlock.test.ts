/** Points of waterlines, buttocks, rabbet and sheer come back in their order along the section, whatever the section does. */
import { describe, expect, test } from 'vitest';
import type { HullLine } from '../../../server/wire/table/hullLine.ts';
import { parseOffsets } from '../../../server/wire/table/parseOffsets.ts';
import { sectionOf } from '../../../server/wire/table/wideBlock.ts';
import { type Chance, chance } from '../../core/frame/fairFrames.ts';
import { evenly } from '../../kit/offsetTable.ts';
import { type Section, wideTable } from '../../kit/wideTable.ts';

interface Drawn {
  readonly points: Section;
  /** How far the topside leans in over plumb at the sheer. */
  readonly leanDeg: number;
}

/** Drawn by the angle of its tangent: a floor (hollow, flat, falling or steep at the rabbet), a bilge, a topside that leans out or in. */
function randomSection(draw: Chance): Drawn {
  const between = (least: number, most: number): number => least + (most - least) * draw();
  const floor = between(-0.15, 0.7);
  const garboard = draw() < 0.5 ? 0 : between(0.3, 1.3);
  const leanDeg = between(-40, 80);
  const topside = Math.PI / 2 + (leanDeg * Math.PI) / 180;
  const [bilge, width, wine] = [between(0.35, 0.6), between(0.06, 0.14), between(0.06, 0.15)];
  const girthMm = between(1200, 3500);
  const cells = 800;
  let [y, z] = [between(20, 80), 100];
  const points: [number, number][] = [[y, z]];
  for (let i = 0; i < cells; i++) {
    const share = (i + 0.5) / cells;
    const turned = (1 + Math.tanh((share - bilge) / width)) / 2;
    const angle = floor + (topside - floor) * turned + garboard * Math.exp(-((share / wine) ** 2));
    y += (girthMm / cells) * Math.cos(angle);
    z += (girthMm / cells) * Math.sin(angle);
    points.push([y, z]);
  }
  return { points, leanDeg };
}

interface OnLine {
  readonly yMm: number;
  readonly zMm: number;
  readonly line: HullLine;
}

/** Where a level of y (0) or z (1) is met, along the section. */
function crossings(section: Section, side: 0 | 1, levelMm: number): readonly (readonly [y: number, z: number])[] {
  return section.flatMap(([y, z], i) => {
    const before = section[i - 1];
    if (before === undefined) return [];
    const [a, b] = [before[side] - levelMm, (side === 0 ? y : z) - levelMm];
    if (a === 0 || a * b >= 0) return [];
    const t = a / (a - b);
    return [[before[0] + t * (y - before[0]), before[1] + t * (z - before[1])] as const];
  });
}

/** One figure for each line, as a table has it: where a line meets the section twice, either. */
function tabled({ points }: Drawn, draw: Chance): readonly OnLine[] {
  const [ys, zs] = [points.map(([y]) => y), points.map(([, z]) => z)];
  const level = (least: number, most: number, count: number) =>
    evenly(least + (0.04 + 0.06 * draw()) * (most - least), most - (0.02 + 0.05 * draw()) * (most - least), count).map(
      Math.round,
    );
  const on = (kind: 'waterline' | 'buttock', side: 0 | 1, levelMm: number): readonly OnLine[] => {
    const met = crossings(points, side, levelMm);
    const at = met[Math.floor(draw() * met.length)];
    const line = { kind, name: `${kind} ${levelMm}`, levelMm, level: `${levelMm}` };
    return at === undefined ? [] : [{ yMm: at[0], zMm: at[1], line }];
  };
  const end = (kind: 'rabbet' | 'sheer', i: number): OnLine => {
    const [yMm, zMm] = points[i] ?? [0, 0];
    return { yMm, zMm, line: { kind, name: kind, levelMm: 0, level: '' } };
  };
  return [
    end('sheer', points.length - 1),
    ...level(Math.min(...zs), Math.max(...zs), 7 + Math.floor(8 * draw())).flatMap((mm) => on('waterline', 1, mm)),
    ...level(Math.min(...ys), Math.max(...ys), 4 + Math.floor(6 * draw())).flatMap((mm) => on('buttock', 0, mm)),
    end('rabbet', 0),
  ];
}

const cell = (row: number) => ({ row, column: 'A', text: '' });

describe('the points of a station', () => {
  test('come in order along the section: 600 of them, topsides that flare by 40 degrees or lean in by up to 80', () => {
    let unsure = 0;
    let leansFar = 0;
    for (let i = 0; i < 600; i++) {
      const draw = chance(11_000 + i);
      const drawn = randomSection(draw);
      const stepMm = [1, 3.175][i % 2] ?? 1;
      const given = tabled(drawn, draw).map(({ yMm, zMm, line }, row) => ({
        ...{ yMm: stepMm * Math.round(yMm / stepMm), zMm: stepMm * Math.round(zMm / stepMm), line },
        ...{ isKnuckle: false, yCell: cell(row), zCell: cell(row) },
      }));
      leansFar += drawn.leanDeg > 45 ? 1 : 0;
      const section = sectionOf(given, stepMm);
      if (section.unsure !== undefined) {
        unsure += 1;
        continue;
      }
      const places = section.points.map(({ yMm, zMm }) => nearest(drawn.points, yMm, zMm));
      expect(places, `section ${i}`).toEqual(places.toSorted((a, b) => a - b));
    }
    expect(leansFar).toBeGreaterThan(120);
    expect(unsure).toBe(0);
  });
});

function nearest(section: Section, yMm: number, zMm: number): number {
  let [best, leastMm] = [0, Infinity];
  section.forEach(([y, z], i) => {
    const mm = Math.hypot(y - yMm, z - zMm);
    if (mm < leastMm) [best, leastMm] = [i, mm];
  });
  return best;
}

test('a table whose topside leans in by 60 degrees is read, its points from rabbet to sheer', () => {
  const section: Section = [
    ...evenly(50, 1000, 40).map((y) => [y, 100 + 0.1 * (y - 50)] as const),
    ...evenly(0.05, 1, 40).map((t) => {
      const angle = -Math.PI / 2 + t * (Math.PI * (150 / 180));
      return [1000 + 300 * Math.cos(angle), 495 + 300 * Math.sin(angle)] as const;
    }),
    ...evenly(20, 600, 30).map((t) => [1150 - t * Math.sin(Math.PI / 3), 755 + t * Math.cos(Math.PI / 3)] as const),
  ];
  const text = wideTable({
    stations: [0, 500, 1000].map((xMm, i) => ({ name: `s${i}`, xMm, section })),
    waterlinesMm: [150, 250, 350, 450, 550, 650, 750, 850, 950, 1000],
    buttocksMm: [200, 400, 600, 800],
    write: (mm) => `${Math.round(mm)}`,
  });
  const parsed = parseOffsets('offsets.csv', text, 'mm');
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  for (const { points } of parsed.value.stations) {
    const places = points.map(({ yMm, zMm }) => nearest(section, yMm, zMm));
    expect(places).toEqual(places.toSorted((a, b) => a - b));
    expect(points.at(-1)?.yMm).toBeLessThan(700);
  }
});

test('two points side by side, of which none can be said to come first, are refused with their cells', () => {
  const text =
    'line,A,B\nx,0,1000\nHalf-breadths\nSheer,900,900\nWL 400,500,500\nRabbet,100,100\nHeights\nSheer,400,400\nButtock 501,320,480\nRabbet,400,400\n';
  const parsed = parseOffsets('offsets.csv', text, 'mm');
  const problems = parsed.ok ? [] : parsed.problems;
  expect(problems[0]).toMatchObject({ code: 'out-of-order', at: { file: 'offsets.csv', column: 'A' } });
  expect(problems[0]?.found).toContain('side by side on station A');
  expect(problems[0]?.wanted).toContain('check both figures');
});

describe('where a waterline and a buttock cross the section at one place', () => {
  const line = (kind: HullLine['kind']): HullLine => ({ kind, name: kind, levelMm: 0, level: '' });
  /** The points up to the pair, a waterline at (300, 30) and a buttock a bit on from it, and those behind it; ends are rabbet and sheer. */
  function kept(below: readonly [number, number][], above: readonly [number, number][], onMm = 1): readonly string[] {
    const pair = [
      [300, 30, 'waterline'],
      [300 + onMm, 30 + onMm, 'buttock'],
    ] as const;
    const all = [
      ...below.map(([y, z]) => [y, z, 'knuckle'] as const),
      ...pair,
      ...above.map(([y, z]) => [y, z, 'knuckle'] as const),
    ];
    const { points } = sectionOf(
      all.map(([yMm, zMm, kind], i) => ({
        yMm,
        zMm,
        isKnuckle: false,
        yCell: { row: i, column: 'y', text: `${yMm}` },
        zCell: { row: i, column: 'z', text: `${zMm}` },
        line: line(i === 0 ? 'rabbet' : i === all.length - 1 ? 'sheer' : kind),
      })),
      1,
    );
    return all.filter(([y, z]) => points.some((point) => point.yMm === y && point.zMm === z)).map(([, , kind]) => kind);
  }
  const theOne = (below: readonly [number, number][], above: readonly [number, number][]): string | undefined =>
    kept(below, above).find((kind) => kind !== 'knuckle');
  const FLAT: readonly [number, number][] = [
    [0, 0],
    [100, 10],
    [200, 20],
  ];

  const STEEP: readonly [number, number][] = [
    [320, 130],
    [340, 230],
    [360, 330],
  ];

  test('the waterline stays where the section is steep from two points below to two above', () => {
    // From (200, 20) to (340, 230); from (100, 10) it would be flat.
    expect(theOne(FLAT, STEEP)).toBe('waterline');
  });

  test('the buttock where it is flat; a third point above does not count', () => {
    // From (200, 20) to (380, 90); to (385, 290) it would be steep.
    expect(
      theOne(FLAT, [
        [340, 60],
        [380, 90],
        [385, 290],
      ]),
    ).toBe('buttock');
  });

  test('points farther apart than fifteen steps of rounding both stay', () => {
    expect(kept(FLAT, STEEP, 10)).toHaveLength(7);
    expect(kept(FLAT, STEEP, 11)).toHaveLength(8);
  });
});
