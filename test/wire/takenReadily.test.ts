import { describe, expect, it } from 'vitest';
import { makePlan } from '../../server/core/makePlan.ts';
import type { Plan } from '../../server/core/plan/plan.ts';
import { planAsText } from '../../server/text/planText.ts';
import { notationOf } from '../../server/wire/job/notationOf.ts';
import { parseJob } from '../../server/wire/job/parseJob.ts';
import { bareUnitsOf, readLength, readLengthCell } from '../../server/wire/length/parseLength.ts';

const FORMAT = 'by-the-mark/job@1';
const PICKED = { pickup: 'p.csv' };
const rows = (...lines: readonly string[]): string => ['girth,bevel', ...lines].join('\n');
const FILES = { 'p.csv': rows('0,4', '24,9', '48,11', '72,7') };

function planned(job: object, files: Readonly<Record<string, string>>): Plan {
  const parsed = parseJob({ format: FORMAT, shape: PICKED, ...job }, files);
  const made = parsed.ok ? makePlan(parsed.value) : parsed;
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value;
}
const problemsOf = (job: object, files: Readonly<Record<string, string>>) => {
  const parsed = parseJob({ format: FORMAT, shape: PICKED, ...job }, files);
  const made = parsed.ok ? makePlan(parsed.value) : parsed;
  return made.ok ? [] : made.problems;
};

describe('the notation of a job', () => {
  const inches = { format: FORMAT, units: 'in', shape: PICKED };
  it.each([
    ['mm where it says mm', { units: 'mm', frame: { siding: '2 3/8 in' } }, '0,4\n600,9', 'mm'],
    ['fractions in its table', { ...inches, frame: { siding: 2.375 } }, '0,4\n10 1/2,9', 'inches and fractions'],
    ['decimals in its table', { ...inches, frame: { siding: '2 3/8 in' } }, '0.5,4\n10.5,9', 'decimal inches'],
    [
      'feet-inches-eighths',
      { ...inches, frame: { siding: 2.5, moulding: 3.25 } },
      '0-0-0,4\n4-2-4,9',
      'feet-inches-eighths',
    ],
    [
      'decimals of bare numbers, where nothing else says',
      { ...inches, frame: { siding: 2.5 } },
      '0,4\n12,9',
      'decimal inches',
    ],
    ['fractions, where nothing says at all', { ...inches, frame: { siding: 2 } }, '0,4\n12,9', 'inches and fractions'],
    [
      'the first of two as frequent',
      { ...inches, frame: { siding: '0-2-4', moulding: '3 1/2 in' } },
      '0,4\n12,9',
      'feet-inches-eighths',
    ],
    [
      'mm, where units are left out and numbers are bare',
      { shape: PICKED, frame: { siding: '2 3/8 in' } },
      '0,4\n600,9',
      'mm',
    ],
    [
      'mm, where units are left out and as much is bare as is in inches',
      { shape: PICKED, frame: { siding: '2 3/8 in' } },
      '0-0-0,4\n600,9\n1200,9',
      'mm',
    ],
    [
      'inches, where units are left out and each is written so',
      { shape: PICKED, frame: { siding: '2 3/8 in' } },
      '0-0-0,4\n4-2-4,9\n6-2-4,9',
      'feet-inches-eighths',
    ],
    ['its own, where it names one', { ...inches, notation: 'decimal inches' }, '0-0-0,4\n4-2-4,9', 'decimal inches'],
  ])('%s', (_, job, table, notation) => {
    expect(notationOf({ shape: PICKED, ...job }, { 'p.csv': rows(table) })).toBe(notation);
  });

  it('is that of every length, feed and rate which its plan tells', () => {
    const files = { 'p.csv': rows('0-0-0,4', '2-0-0,9', '4-2-4,11', '6-0-0,7') };
    const plan = planned(
      { units: 'in', frame: { siding: '0-2-3', moulding: '0-3-4' }, crew: { feedMPerMin: 9 } },
      files,
    );
    expect(plan.notation).toBe('feet-inches-eighths');
    const told = [planAsText(plan), ...plan.warnings.map(({ message }) => message)]
      .join('\n')
      .replace(/\(\+- is .*?\)/, '');
    expect(told).toMatch(/Siding, moulding\s+0-2-3, 0-3-4/);
    expect(told).toContain('ft/min');
    expect(told).toContain('a foot');
    // No millimetres, no metres, no fractions and no decimals but thousandths of what is under a sixteenth.
    expect(told).not.toMatch(/\d ?mm\b|m\/min|a metre|\d+\/\d+ in|[1-9]\d*\.\d+ in\b|0\.[1-9]\d* in\b/);
  });

  it('tells the bounds of a refusal in it too', () => {
    const [problem] = problemsOf({ units: 'in', frame: { siding: '99-0-0' } }, { 'p.csv': rows('0-0-0,4', '6-0-0,7') });
    expect(problem).toMatchObject({ at: { field: 'frame.siding' }, wanted: expect.stringMatching(/to 6-6-5\+/) });
  });

  it('asks what a bare number counts in, where units and notation are of two measures', () => {
    const bare = bareUnitsOf({ units: 'mm', notation: 'feet-inches-eighths' });
    expect(bareUnitsOf({ units: 'in', notation: 'feet-inches-eighths' })).toBe('in');
    for (const reading of [readLengthCell('12', bare), readLength(12, bare)])
      expect(reading).toMatchObject({ code: 'ambiguous-length', wanted: expect.stringContaining('mm or in?') });
    expect(readLengthCell('1-0-0', bare)).toEqual({ mm: 304.8 });
  });
});

describe('taken readily', () => {
  it.each([
    ['stbd', 'FWD', 'starboard', 'forward'],
    ['Stbd.', "for'd", 'starboard', 'forward'],
    ['P', 'aft', 'port', 'aft'],
    ['Port', 'A', 'port', 'aft'],
  ])('side %s and face %s', (side, mouldedFace, wantedSide, wantedFace) => {
    const { frame, defaults } = planned({ units: 'in', frame: { siding: 2, side, mouldedFace } }, FILES);
    expect(frame).toMatchObject({ side: wantedSide, mouldedFace: wantedFace });
    expect(defaults).not.toContain('frame.side');
  });

  it('a side that could be either is refused', () => {
    expect(problemsOf({ frame: { siding: 2, side: 'st' } }, FILES)).toMatchObject([
      { at: { field: 'frame.side' }, found: '"st"', wanted: '"port" or "starboard"' },
    ]);
  });

  it('readings about 90, where the job says so', () => {
    const job = { units: 'in', frame: { siding: 2 } };
    const about = { 'p.csv': rows('0,94', '24,99', '48,101°', '72,86 1/2') };
    expect(problemsOf(job, about)).toHaveLength(4);
    const { pickedUp } = planned({ ...job, shape: { ...PICKED, readings: 'about 90' } }, about);
    expect(pickedUp.map(({ bevelDeg }) => bevelDeg)).toStrictEqual([4, 9, 11, -3.5]);
  });

  it('a fraction in a mm job is asked for its unit', () => {
    expect(problemsOf({ units: 'mm', frame: { siding: '2 3/8' } }, FILES)).toMatchObject([
      { at: { field: 'frame.siding' }, found: '"2 3/8"', wanted: expect.stringContaining('mm or in?') },
    ]);
    expect(planned({ units: 'in', frame: { siding: '2 3/8' } }, FILES).frame.sidingMm).toBeCloseTo(60.325, 9);
  });

  it('a pattern far shorter than the pick-up is refused, a little shorter one warned of', () => {
    const upTo = (z: number) => ({ ...FILES, 'y.csv': `y,z\n10,0\n12,${z / 2}\n14,${z}\n` });
    const job = { units: 'in', frame: { siding: 2 }, shape: { ...PICKED, pattern: 'y.csv' } };
    expect(problemsOf(job, upTo(50))).toMatchObject([
      {
        at: { file: 'y.csv' },
        found: expect.stringMatching(/^a pattern 50 \S+ in long$/),
        wanted: expect.stringContaining('72 in'),
      },
    ]);
    expect(planned(job, upTo(69)).warnings.map(({ code }) => code)).toContain('pattern-length');
  });

  it('two rows are warned of, and without a pattern nobody knows what the inner wedge keeps', () => {
    const job = { units: 'in', frame: { siding: 2 } };
    const two = planned(job, { 'p.csv': rows('0,4', '72,7') });
    expect(two.warnings.filter(({ code }) => code === 'nothing-checked')).toMatchObject([
      { message: expect.stringContaining('two places only') },
    ]);
    const more = planned(job, FILES);
    expect(more.warnings.map(({ message }) => message).join()).not.toContain('two places');
    const text = planAsText(more).replace(/\s+/g, ' ');
    expect(text).toContain('Whether one cut suits both wedges is not known without a pattern');
    expect(text).not.toContain('One cut suits both');
  });
});
