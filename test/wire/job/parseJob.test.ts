import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { describeProblem, type Problem, type Result } from '../../../server/core/errors.ts';
import type { Job } from '../../../server/core/job.ts';
import { parseJob } from '../../../server/wire/job/parseJob.ts';
import { PROBLEMS_SHOWN } from '../../../server/wire/problem/problemList.ts';
import { pickUpOf } from '../../kit/aJob.ts';
import { cases } from '../../kit/cases.ts';
import { anyJob, goodFiles, goodJob } from '../goodJobs.ts';

const least = { format: 'by-the-mark/job@1', frame: { siding: 60 }, shape: { pickup: 'pickup.csv' } };
const jobOf = (result: Result<Job>): Job => {
  if (!result.ok) throw new Error(result.problems.map(describeProblem).join('\n'));
  return result.value;
};
const problemsOf = (job: unknown, files: Readonly<Record<string, string>> = goodFiles()): readonly Problem[] => {
  const result = parseJob(job, files);
  return result.ok ? [] : result.problems;
};

describe('a good job', () => {
  it('gives every value that it states, and names no default', () => {
    const job = jobOf(parseJob(goodJob(), goodFiles()));
    expect(job.defaults).toEqual([]);
    expect(pickUpOf(job).rows).toEqual([
      { girthMm: 0, bevelDeg: 4, weight: 1, note: 'heel' },
      { girthMm: 120, bevelDeg: 6.5, weight: 1 },
      { girthMm: 250, bevelDeg: 9, weight: 0.5, note: 'by the bilge, twice' },
      { girthMm: 400, bevelDeg: 7, weight: 1 },
    ]);
    expect(job.marks).toEqual({ kind: 'at', girthsMm: [0, 120, 250, 400] });
    expect(pickUpOf(job).pattern?.points[1]).toEqual({ yMm: 300, zMm: 210 });
  });

  it('comes back as it was written (1,000 random jobs, or a quarter)', () => {
    fc.assert(
      fc.property(anyJob, ({ written, wanted }) => {
        expect(jobOf(parseJob(JSON.parse(JSON.stringify(written.job)), written.files))).toEqual(wanted);
      }),
      { numRuns: cases(1000) },
    );
  });

  it('needs only format, siding and shape; the rest is filled in and named', () => {
    const job = jobOf(parseJob(least, goodFiles()));
    expect(job.saw).toMatchObject({
      kerfMm: 2.4,
      bladeThicknessMm: 1.1,
      bladeWidthMm: 25,
      tiltDeg: [-5, 45],
      leans: 'right',
    });
    expect(job.marks).toEqual({ kind: 'spacing', spacingMm: 150 });
    expect(job.title).toBe('Frame');
    expect([...job.defaults].sort()).toEqual(
      [
        ...['title', 'units', 'frame.label', 'frame.side', 'frame.moulding', 'frame.mouldedFace', 'shape.errorDeg'],
        ...['marks.spacing', 'saw.kerf', 'saw.bladeWidth', 'saw.bladeThickness', 'saw.tilt', 'saw.leans'],
        ...['saw.pivotHeight', 'saw.degreesPerTurn', 'saw.readout', 'saw.readoutTable'],
        ...['crew.reactionS', 'crew.turnsPerS', 'crew.feedMPerMin', 'stack.lamination', 'stack.species'],
        ...['voice.language', 'voice.form', 'voice.numbers'],
      ].sort(),
    );
  });

  it('counts bare numbers in its units, in the tables too', () => {
    const files = { 'pickup.csv': 'girth,bevel\n0,1\n2 3/8,2\n0-6-4+,3\n400 mm,4\n' };
    const job = jobOf(parseJob({ ...least, units: 'in', frame: { siding: 2.5 }, marks: { spacing: '150 mm' } }, files));
    expect(job.frame.sidingMm).toBe(63.5);
    expect(job.marks).toEqual({ kind: 'spacing', spacingMm: 150 });
    expect(pickUpOf(job).rows.map(({ girthMm }) => girthMm)).toEqual([0, 60.325, 166.6875, 400]);
  });

  it('makes a title of what the job says of the frame, and of nothing else', () => {
    const title = (frame: object) => jobOf(parseJob({ ...least, frame: { siding: 60, ...frame } }, goodFiles())).title;
    expect(title({ label: 14 })).toBe('Frame 14');
    expect(title({ label: '14', side: 'port' })).toBe('Frame 14, port');
  });

  it('fills in no blade as thick as the kerf', () => {
    const saw = (given: object) => jobOf(parseJob({ ...least, saw: given }, goodFiles())).saw;
    expect(saw({ kerf: 1 })).toMatchObject({ kerfMm: 1, bladeThicknessMm: 0.5 });
    expect(saw({ bladeThickness: 2 })).toMatchObject({ kerfMm: 4, bladeThicknessMm: 2 });
  });

  it('knows no feed of the saw unless it is told', () => {
    const saw = (given: object) => jobOf(parseJob({ ...least, saw: given }, goodFiles())).saw;
    expect(saw({})).not.toHaveProperty('feedMPerMin');
    expect(saw({ feedMPerMin: 4.5 }).feedMPerMin).toBe(4.5);
  });

  it('takes the yard’s own words, a letter with its dots apart too', () => {
    const words = { stopFeed: ' stopp Holz, Neigung bleibt ', easeFeed: 'gema\u0308chlich' };
    const job = jobOf(parseJob({ ...least, voice: { language: 'de', words } }, goodFiles()));
    expect(job.voice.words).toEqual({ stopFeed: 'stopp Holz, Neigung bleibt', easeFeed: 'gemächlich' });
    expect(jobOf(parseJob(least, goodFiles())).voice).not.toHaveProperty('words');
  });

  it('may name its tables as anything, even as what every object has', () => {
    for (const name of ['constructor', '__proto__', 'toString', './pickup.csv']) {
      const job = { ...least, shape: { pickup: name } };
      const files: unknown = JSON.parse(
        JSON.stringify({}).replace('{}', `{${JSON.stringify(name)}:"girth,bevel\\n0,1\\n9,2"}`),
      );
      expect(pickUpOf(jobOf(parseJob(job, files as Record<string, string>))).rows).toHaveLength(2);
      if (!name.startsWith('.')) expect(problemsOf(job, {})[0]?.code).toBe('missing-file');
    }
  });
});

describe('what is wrong is told with its place', () => {
  const spoilt: readonly (readonly [string, unknown, Partial<Problem>])[] = [
    ['no job at all', null, { code: 'wrong-type', at: { field: 'job' } }],
    ['a list', [], { code: 'wrong-type', at: { field: 'job' } }],
    ['no format', { ...least, format: undefined }, { code: 'missing', at: { field: 'format' } }],
    ['another format', { ...least, format: 'x@1' }, { code: 'not-supported', at: { field: 'format' } }],
    ['no siding', { ...least, frame: {} }, { code: 'missing', at: { field: 'frame.siding' } }],
    ['no frame', { ...least, frame: undefined }, { code: 'missing', at: { field: 'frame.siding' } }],
    ['no shape', { ...least, shape: undefined }, { code: 'missing', at: { field: 'shape' } }],
    [
      'a siding of nothing',
      { ...least, frame: { siding: 0 } },
      { code: 'out-of-range', at: { field: 'frame.siding' } },
    ],
    ['a siding that is no number', { ...least, frame: { siding: Number.NaN } }, { at: { field: 'frame.siding' } }],
    ['a length without its unit', { ...least, frame: { siding: '60' } }, { code: 'not-a-length', found: '"60"' }],
    ['a length with a comma', { ...least, frame: { siding: '2,5 in' } }, { code: 'not-a-length', found: '"2,5 in"' }],
    [
      'an unclear sign',
      { ...least, marks: { spacing: '0-6-4-' } },
      { code: 'ambiguous-length', at: { field: 'marks.spacing' } },
    ],
    [
      'marks that go back',
      { ...least, marks: { at: [0, 9, 9] } },
      { code: 'out-of-order', at: { field: 'marks.at[2]' } },
    ],
    ['a single mark', { ...least, marks: { at: [0] } }, { code: 'too-few', at: { field: 'marks.at' } }],
    ['2001 marks', { ...least, marks: { at: Array.from({ length: 2001 }, (_, i) => i) } }, { code: 'too-many' }],
    [
      'two ways of marking',
      { ...least, marks: { at: [0, 1], spacing: 9 } },
      { code: 'too-many', at: { field: 'marks' } },
    ],
    ['a tilt upside down', { ...least, saw: { tilt: [45, -5] } }, { code: 'out-of-order', at: { field: 'saw.tilt' } }],
    ['a saw that takes nothing', { ...least, saw: { feedMPerMin: 0 } }, { at: { field: 'saw.feedMPerMin' } }],
    [
      'a feed in words',
      { ...least, saw: { feedMPerMin: '3' } },
      { code: 'wrong-type', at: { field: 'saw.feedMPerMin' } },
    ],
    [
      'a feed that is nowhere in particular',
      { ...least, feedMPerMin: 3 },
      { code: 'unknown-field', wanted: expect.stringContaining('crew.feedMPerMin') },
    ],
    ['a blade that binds', { ...least, saw: { kerf: 1, bladeThickness: 1 } }, { at: { field: 'saw.bladeThickness' } }],
    [
      'a readout that falls',
      {
        ...least,
        saw: {
          readoutTable: [
            [0, 0],
            [9, 9],
            [8, 10],
          ],
        },
      },
      { code: 'out-of-order', at: { field: 'saw.readoutTable[2][0]' } },
    ],
    [
      'a voice that is not here',
      { ...least, voice: { language: 'xx' } },
      { code: 'out-of-range', found: '"xx"', wanted: '"en" or "de"' },
    ],
    [
      'own words that are taken for a figure',
      { ...least, voice: { words: { easeFeed: 'brake for' } } },
      { code: 'mistakable', at: { field: 'voice.words.easeFeed' }, found: '"brake for"' },
    ],
    [
      'a shop word in another language',
      { ...least, voice: { language: 'de', words: { stopFeed: 'halt' } } },
      { code: 'mistakable', at: { field: 'voice.words.stopFeed' }, wanted: expect.stringContaining('to stop as well') },
    ],
    [
      'own words with something odd in them',
      { ...least, voice: { words: { stopFeed: 'stop $(feed)' } } },
      { code: 'out-of-range', at: { field: 'voice.words.stopFeed' }, wanted: expect.stringContaining('letters') },
    ],
    ['own words that are none', { ...least, voice: { words: { stopFeed: 7 } } }, { code: 'wrong-type' }],
    ['own words over two lines', { ...least, voice: { words: { stopFeed: 'stop\nfeed' } } }, { code: 'out-of-range' }],
    ['a list of words', { ...least, voice: { words: ['stop'] } }, { at: { field: 'voice.words' } }],
    [
      'words for a phrase that there is not',
      { ...least, voice: { words: { stopFeeding: 'stop' } } },
      { at: { field: 'voice.words.stopFeeding' }, wanted: '"stopFeed", the nearest known field' },
    ],
    [
      'offsets that are not there',
      { ...least, shape: { offsets: 'offsets.csv', at: 4200 } },
      { code: 'missing-file', at: { file: 'offsets.csv', field: 'shape.offsets' } },
    ],
    [
      'a missing file',
      { ...least, shape: { pickup: 'no.csv' } },
      { code: 'missing-file', at: { file: 'no.csv', field: 'shape.pickup' } },
    ],
    [
      'a slip of the pen',
      { ...least, saw: { moulded_face: 1, kerv: 1 } },
      { code: 'unknown-field', at: { field: 'saw.kerv' }, wanted: '"kerf", the nearest known field' },
    ],
    [
      'a field in another place',
      { ...least, kerf: 1 },
      { code: 'unknown-field', at: { field: 'kerf' }, wanted: 'this field in its place, saw.kerf' },
    ],
    [
      'a prototype',
      JSON.parse(`{"__proto__": {"units": "in"}, ${JSON.stringify(least).slice(1)}`),
      { code: 'unknown-field', at: { field: '__proto__' } },
    ],
  ];
  it.each(spoilt)('%s', (_, job, wanted) => {
    expect(problemsOf(job)).toContainEqual(expect.objectContaining(wanted));
  });

  it('all at once, job and tables together', () => {
    const job = { ...least, frame: { siding: -1, side: 'left' }, saw: { kerf: 'wide' } };
    const lines = problemsOf(job, { 'pickup.csv': '# at the boat\ngirth,bevel\n0,1\n\n100,62\n90,2\n' }).map(
      describeProblem,
    );
    expect(lines).toEqual([
      'frame.side: found "left"; wanted "port" or "starboard"',
      'frame.siding: found -1; wanted the siding, a length from 1 mm to 2000 mm',
      expect.stringContaining('saw.kerf: found "wide"; wanted the kerf'),
      expect.stringContaining('pickup.csv, row 2 (line 5), column bevel: found "62"; wanted degrees'),
      'pickup.csv, row 3 (line 6), column girth: found "90"; wanted 100 or more, the girth of row 2 (the same girth again is a second reading of that place)',
    ]);
  });

  it('but no more than can be read: the rest are counted', () => {
    const rows = Array.from({ length: 200 }, (_, i) => `${i},x`).join('\n');
    const problems = problemsOf(least, { 'pickup.csv': `girth,bevel\n${rows}` });
    expect(problems).toHaveLength(PROBLEMS_SHOWN + 1);
    expect(problems.at(-1)).toMatchObject({ code: 'too-many', found: '150 more problems from here on' });
  });
});
