/** Tables of offsets with anything in them, and any fields beside: planned in finite numbers or refused with places, never a throw. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { makePlan } from '../../server/core/makePlan.ts';
import { parseJob } from '../../server/wire/job/parseJob.ts';
import { chance } from '../core/frame/fairFrames.ts';
import { randomHull } from '../core/hull/analyticHull.ts';
import { holds } from '../kit/holds.ts';
import { evenly } from '../kit/offsetTable.ts';
import { traditional, wideTable } from '../kit/wideTable.ts';

const LONG = readFileSync(new URL('../../server/demo/offsets.csv', import.meta.url), 'utf8');
const hull = randomHull(chance(5));
const WIDE = wideTable({
  stations: evenly(0, hull.traits.lengthMm, 11).map((xMm, i) => ({
    name: `s${i}`,
    xMm,
    section: hull.section(xMm, 200),
  })),
  waterlinesMm: evenly(200, 1400, 6),
  buttocksMm: evenly(200, 1000, 4),
  write: (mm) => traditional(mm),
});

const cell = fc.oneof(
  fc.constantFrom(
    '',
    '-',
    '0',
    '-1',
    '1e9',
    'x',
    '"',
    ',',
    '0-0-0',
    '3-4-5-',
    '999999',
    '12 mm',
    'Sheer',
    'station',
    '\u0000',
    'NaN',
  ),
  fc.string({ maxLength: 6 }),
  fc.integer({ min: -3000, max: 9000 }).map(String),
);
const spoil = (table: string) =>
  fc.array(fc.tuple(fc.nat(), fc.nat(), cell), { maxLength: 4 }).map((slips) => {
    const lines = table.split('\n').map((line) => line.split(','));
    for (const [row, column, text] of slips) {
      const line = lines[row % lines.length] ?? [];
      line[column % line.length] = text;
    }
    return lines.map((line) => line.join(',')).join('\n');
  });
const shuffleLines = (table: string) =>
  fc.tuple(fc.nat(), fc.nat()).map(([a, b]) => {
    const lines = table.split('\n');
    const [i, j] = [a % lines.length, b % lines.length];
    [lines[i], lines[j]] = [lines[j] ?? '', lines[i] ?? ''];
    return lines.join('\n');
  });
const length = fc.double({ min: -500, max: 15_000, noNaN: true });
const shape = fc.record(
  {
    at: length,
    cantDeg: fc.double({ min: -85, max: 85, noNaN: true }),
    planking: fc.double({ min: 0, max: 310, noNaN: true }),
    fairing: fc.double({ min: 0, max: 310, noNaN: true }),
    asDrawn: fc.boolean(),
  },
  { requiredKeys: ['at'] },
);

describe.each([
  ['long', LONG, 'mm'],
  ['wide', WIDE, 'in'],
] as const)('a %s table', (_, table, units) => {
  test.each([
    ['with spoilt cells', spoil(table)],
    ['with two lines changed about', shuffleLines(table)],
    ['as it is', fc.constant(table)],
  ])('%s', (__, tables) => {
    holds(
      fc.property(
        tables,
        shape,
        fc.constantFrom('forward', 'aft'),
        fc.double({ min: 0.5, max: 250, noNaN: true }),
        (text, fields, mouldedFace, siding) => {
          const job = { format: 'by-the-mark/job@1', units, frame: { siding: `${siding.toFixed(2)} mm`, mouldedFace } };
          const inUnits = (mm: number | undefined) => (mm === undefined ? {} : `${mm.toFixed(2)} mm`);
          const lengths = Object.fromEntries(
            (['at', 'planking', 'fairing'] as const).flatMap((name) =>
              fields[name] === undefined ? [] : [[name, inUnits(fields[name])]],
            ),
          );
          const parsed = parseJob({ ...job, shape: { offsets: 'o.csv', ...fields, ...lengths } }, { 'o.csv': text });
          const made = parsed.ok ? makePlan(parsed.value) : parsed;
          if (made.ok) {
            const { offsets } = made.value;
            expect([offsets?.hollow.mostMm, offsets?.runOff.atHeadMm].every(Number.isFinite)).toBe(true);
            for (const mark of made.value.marks)
              expect([mark.bevelDeg, mark.sawnDeg, mark.stockMm, mark.girthMm].every(Number.isFinite)).toBe(true);
          } else
            for (const { wanted, found } of made.problems)
              expect([wanted, found].every((words) => words.length > 0)).toBe(true);
        },
      ),
      { numRuns: 50 },
    );
  });
});
