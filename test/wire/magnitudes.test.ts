import { describe, expect, it } from 'vitest';
import { parseJob } from '../../server/wire/job/parseJob.ts';
import { parseRunRequest } from '../../server/wire/request/requests.ts';
import { parseMeasuredRequest, parseSaveRequest } from '../../server/wire/request/sawnRequests.ts';
import { parsePiece } from '../../server/wire/table/parsePiece.ts';
import { goodFiles, goodJob } from './goodJobs.ts';

const ABSURD = [1e-320, -1e-320, 1e-12, 5e-324, 1e9, -1e9, 1e300, -1.7e308] as const;

type Spoil = (value: number) => Record<string, unknown>;
const job = goodJob();
const within = (section: 'frame' | 'saw' | 'crew' | 'stack', field: string): [string, Spoil] => [
  `${section}.${field}`,
  (value) => ({ [section]: { ...job[section], [field]: value } }),
];
const rip = (field: string, beside = {}): [string, Spoil] => [
  `rip.${field}`,
  (value) => ({ rip: { ...beside, [field]: value } }),
];
const offsets = (field: string): [string, Spoil] => [
  `shape.${field}`,
  (value) => ({ shape: { offsets: 'offsets.csv', at: 500, [field]: value } }),
];
/** Every number of the job file. */
const FIELDS: readonly [string, Spoil][] = [
  within('frame', 'siding'),
  within('frame', 'moulding'),
  ...['kerf', 'bladeWidth', 'bladeThickness', 'pivotHeight', 'degreesPerTurn', 'readout'].map((f) => within('saw', f)),
  ...['backlashTurns', 'feedMPerMin'].map((f) => within('saw', f)),
  ['saw.tilt[0]', (value) => ({ saw: { tilt: [value, 45] } })],
  ['saw.tilt[1]', (value) => ({ saw: { tilt: [-5, value] } })],
  [
    'saw.readoutTable[0][0]',
    (value) => ({
      saw: {
        readoutTable: [
          [value, 0],
          [20, 20],
        ],
      },
    }),
  ],
  [
    'saw.readoutTable[1][1]',
    (value) => ({
      saw: {
        readoutTable: [
          [0, 0],
          [10, value],
        ],
      },
    }),
  ],
  [
    'saw.turnsTable[0][0]',
    (value) => ({
      saw: {
        turnsTable: [
          [value, 0],
          [20, 20],
        ],
      },
    }),
  ],
  [
    'saw.turnsTable[1][1]',
    (value) => ({
      saw: {
        turnsTable: [
          [0, 0],
          [10, value],
        ],
      },
    }),
  ],
  ...['reactionS', 'turnsPerS', 'feedMPerMin'].map((f) => within('crew', f)),
  within('stack', 'lamination'),
  ['marks.spacing', (value) => ({ marks: { spacing: value } })],
  ['marks.tolerance', (value) => ({ marks: { tolerance: value } })],
  ['marks.at[1]', (value) => ({ marks: { at: [0, value] } })],
  ['shape.errorDeg', (value) => ({ shape: { ...job.shape, errorDeg: value } })],
  ['shape.batten', (value) => ({ shape: { ...job.shape, batten: value } })],
  rip('lineHeight', { feeds: 'along a line' }),
  ...['thinnestEdge', 'cleaningUp', 'endWaste', 'heelBeyond', 'headBeyond'].map((f) => rip(f)),
  ...['at', 'planking', 'cantDeg', 'fairing'].map(offsets),
  ['shape.frames[0]', (value) => ({ shape: { offsets: 'offsets.csv', at: 500, frames: [value] } })],
];

describe.each(FIELDS)('%s', (field, spoil) => {
  it.each(ABSURD)('%d is refused, with what was found and what is wanted', (value) => {
    const made = parseJob({ ...job, ...spoil(value) }, goodFiles());
    const told = made.ok ? [] : made.problems.filter(({ at }) => at.field?.startsWith(field));
    expect(told.map(({ code }) => code)).toContain('out-of-range');
    expect(told[0]?.found).toContain(String(value));
    expect(told[0]?.wanted).toMatch(/from -?\d/);
  });
});

describe('figures that stand all but in one place are refused', () => {
  it.each([
    ['marks.at[1]', { marks: { at: [0, 0.05] } }],
    [
      'saw.readoutTable[1][0]',
      {
        saw: {
          readoutTable: [
            [0, 0],
            [0.0001, 10],
          ],
        },
      },
    ],
    [
      'saw.turnsTable[1][0]',
      {
        saw: {
          turnsTable: [
            [0, 0],
            [0.0001, 10],
          ],
        },
      },
    ],
  ])('%s', (field, spoil) => {
    const made = parseJob({ ...job, ...spoil }, goodFiles());
    expect(made.ok ? [] : made.problems).toMatchObject([{ code: 'out-of-order', at: { field } }]);
  });
});

describe('a cell of a table', () => {
  const pickUp = (row: string) =>
    parseJob(job, { ...goodFiles(), 'pickup.csv': `girth,bevel,weight\n${row}\n900,3,\n` });
  it.each([
    ['girth', '1e-320,4,'],
    ['girth', '1e300,4,'],
    ['bevel', '0,1e-320,'],
    ['bevel', '0,1e300,'],
    ['weight', '0,4,1e-320'],
    ['weight', '0,4,1e300'],
  ])('%s in %s is refused', (column, row) => {
    const made = pickUp(row);
    expect(made.ok ? [] : made.problems).toContainEqual(
      expect.objectContaining({ code: 'out-of-range', at: expect.objectContaining({ column }) }),
    );
  });
  it.each(['y,z\n1e-320,90\n300,210', 'y,z\n140,90\n300,1e300'])('of a pattern (%j) is refused', (pattern) => {
    expect(parseJob(job, { ...goodFiles(), 'pattern.csv': pattern }).ok).toBe(false);
  });
  it.each(['1e-320,4,,', '100,1e-320,,', '100,4,1e-320,', '100,4,,1e-320', '100,4,,1e300'])(
    'of a piece (%s) is refused',
    (row) => {
      expect(parsePiece('p.csv', `along,bevel,weight,thin\n${row}\n500,3,,\n`, 'mm').ok).toBe(false);
    },
  );
});

describe('numbers of a request', () => {
  const carried = { job: {}, files: {} };
  it.each([1e-320, 0, -1, 1e300])('%d is no feed and no error', (value) => {
    const feed = { kind: 'simulated', mPerMin: value };
    expect(parseRunRequest({ ...carried, mode: 'pair', feed }).ok).toBe(false);
    expect(parseSaveRequest({ ...carried, measured: '', errorDeg: value }).ok).toBe(false);
    expect(parseMeasuredRequest({ ...carried, measured: '', feedMPerMin: value }).ok).toBe(false);
  });
});
