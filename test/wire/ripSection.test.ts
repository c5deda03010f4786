/** The job's own choices about the rip, and the batten that its girths were marked on. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { describeProblem, type Problem } from '../../server/core/errors.ts';
import type { Job, RipChoices } from '../../server/core/job.ts';
import { makePlan } from '../../server/core/makePlan.ts';
import { RIP_DEFAULTS } from '../../server/core/saw/sawDefaults.ts';
import { parseJob } from '../../server/wire/job/parseJob.ts';
import { pickUpOf } from '../kit/aJob.ts';
import { goodFiles, goodJob } from './goodJobs.ts';

const withRip = (rip: unknown) => ({ ...goodJob(), rip });
const least = { format: 'by-the-mark/job@1', frame: { siding: 2 }, shape: { pickup: 'pickup.csv' } };
function jobOf(job: unknown, files = goodFiles()): Job {
  const parsed = parseJob(job, files);
  if (!parsed.ok) throw new Error(parsed.problems.map(describeProblem).join('\n'));
  return parsed.value;
}
function problemsOf(job: unknown, files: Readonly<Record<string, string>> = goodFiles()): readonly Problem[] {
  const parsed = parseJob(job, files);
  return parsed.ok ? [] : parsed.problems;
}

/** Written in millimetres, in inches or with its unit, and what it is in mm. */
const lengthUpTo = (mostMm: number) => fc.integer({ min: 0, max: mostMm * 10 }).map((tenths) => tenths / 10);
const LENGTHS = {
  thinnestEdge: ['thinnestEdgeMm', 100],
  cleaningUp: ['cleaningUpMm', 100],
  endWaste: ['endWasteMm', 5000],
  heelBeyond: ['heelBeyondMm', 5000],
  headBeyond: ['headBeyondMm', 5000],
} as const;

const choices = fc.record(
  {
    feeds: fc.constantFrom('along a fence' as const, 'along a line' as const),
    favours: fc.constantFrom('outer' as const, 'both' as const),
    thinnestEdge: lengthUpTo(100),
    cleaningUp: lengthUpTo(100),
    endWaste: lengthUpTo(5000),
    heelBeyond: lengthUpTo(5000),
    headBeyond: lengthUpTo(5000),
  },
  { requiredKeys: [] },
);

describe('the section "rip" of a job', () => {
  it('gives every choice that is stated, in mm, and none that is not', () => {
    fc.assert(
      fc.property(choices, fc.constantFrom('mm', 'in', 'with its unit'), (stated, units) => {
        const written: Record<string, unknown> = { ...stated };
        const wanted: Record<string, unknown> = {};
        for (const [name, value] of Object.entries(stated)) {
          if (typeof value === 'string') {
            wanted[name] = value;
            continue;
          }
          const mm = value as number;
          written[name] = units === 'mm' ? mm : units === 'in' ? mm / 25.4 : `${mm} mm`;
          wanted[LENGTHS[name as keyof typeof LENGTHS][0]] = expect.closeTo(mm, 6);
        }
        const job = jobOf({ ...least, units: units === 'mm' ? 'mm' : 'in', rip: written });
        expect(job.rip).toEqual(wanted);
        expect(job.defaults.filter((field) => field.startsWith('rip'))).toEqual([]);
      }),
    );
  });

  it('has the height of the line beside feeding along one', () => {
    expect(jobOf(withRip({ feeds: 'along a line', lineHeight: 22.5 })).rip).toEqual({
      feeds: 'along a line',
      lineHeightMm: 22.5,
    });
  });

  it('is nothing where the job has none, and the plan then says what is taken', () => {
    const job = jobOf(goodJob());
    expect(job).not.toHaveProperty('rip');
    const made = makePlan(job);
    const { feeds, thinnestEdgeMm, cleaningUpMm, endWasteMm, favours }: RipChoices = RIP_DEFAULTS;
    expect(made.ok && made.value.rip).toMatchObject({ feeds, thinnestEdgeMm, cleaningUpMm, endWasteMm, favours });
  });

  it('that is stated stands in the plan', () => {
    const made = makePlan(
      jobOf(
        withRip({
          feeds: 'along a line',
          lineHeight: 20,
          thinnestEdge: 4,
          cleaningUp: 1,
          endWaste: 90,
          favours: 'both',
        }),
      ),
    );
    expect(made.ok && made.value.rip).toMatchObject({
      ...{
        feeds: 'along a line',
        straightAtMm: 20,
        thinnestEdgeMm: 4,
        cleaningUpMm: 1,
        endWasteMm: 90,
        favours: 'both',
      },
    });
  });

  const spoilt: readonly (readonly [string, unknown, string, string])[] = [
    ['no object', 'fence', 'rip', 'wrong-type'],
    ['a field that is none', { fence: true }, 'rip.fence', 'unknown-field'],
    ['a feed that is none', { feeds: 'by hand' }, 'rip.feeds', 'out-of-range'],
    ['a favour that is none', { favours: 'inner' }, 'rip.favours', 'out-of-range'],
    ['a line beside a fence', { lineHeight: 20 }, 'rip.lineHeight', 'out-of-order'],
    [
      'a line beside a fence that is stated',
      { feeds: 'along a fence', lineHeight: 20 },
      'rip.lineHeight',
      'out-of-order',
    ],
    ['a line under the table', { feeds: 'along a line', lineHeight: -1 }, 'rip.lineHeight', 'out-of-range'],
    ...Object.entries(LENGTHS).flatMap(([name, [, mostMm]]) => [
      [`${name} below nothing`, { [name]: -0.1 }, `rip.${name}`, 'out-of-range'] as const,
      [`${name} beyond what can be meant`, { [name]: mostMm + 1 }, `rip.${name}`, 'out-of-range'] as const,
      [`${name} that is no length`, { [name]: 'some' }, `rip.${name}`, 'not-a-length'] as const,
    ]),
  ];
  it.each(spoilt)('refuses %s, with its place', (_, rip, field, code) => {
    expect(problemsOf(withRip(rip))).toMatchObject([{ code, at: { field } }]);
  });
});

describe('what belongs to a table of offsets', () => {
  it.each([
    ['cantDeg', 5],
    ['planking', 16],
    ['fairing', 1],
    ['frames', [100, 200]],
    ['asDrawn', true],
  ])('"%s" is refused beside a pick-up alone, for it would change nothing', (name, value) => {
    const job = { ...goodJob(), shape: { pickup: 'pickup.csv', [name]: value } };
    expect(problemsOf(job)).toMatchObject([{ code: 'unknown-field', at: { field: `shape.${name}` } }]);
  });
  it('an error of the bevels is refused beside offsets alone', () => {
    const job = { ...goodJob(), shape: { offsets: 'offsets.csv', at: 0, errorDeg: 1 } };
    expect(problemsOf(job)).toContainEqual(
      expect.objectContaining({ code: 'unknown-field', at: { field: 'shape.errorDeg' } }),
    );
  });
});

describe('"shape.batten"', () => {
  const shape = (more: object) => ({ ...goodJob(), shape: { ...goodJob().shape, ...more } });

  it('is the thickness of the batten, in mm', () => {
    expect(pickUpOf(jobOf(shape({ batten: 12 }))).battenMm).toBe(12);
    expect(pickUpOf(jobOf(shape({ batten: '1/2 in' }))).battenMm).toBe(12.7);
    expect(pickUpOf(jobOf(goodJob()))).not.toHaveProperty('battenMm');
  });

  it('needs a pattern, for without its turns the half thickness cannot be taken out', () => {
    const job = { ...goodJob(), shape: { pickup: 'pickup.csv', batten: 12 } };
    expect(problemsOf(job)).toMatchObject([{ code: 'missing', at: { field: 'shape.pattern' } }]);
  });

  it('is refused where it cannot be meant', () => {
    expect(problemsOf(shape({ batten: -1 }))).toMatchObject([{ code: 'out-of-range', at: { field: 'shape.batten' } }]);
    expect(problemsOf(shape({ batten: 51 }))).toMatchObject([{ code: 'out-of-range', at: { field: 'shape.batten' } }]);
    const offsets = { ...goodJob(), shape: { offsets: 'offsets.csv', at: 0, batten: 12 } };
    const fields = problemsOf(offsets, { 'offsets.csv': 'station,x,y,z\n1,0,0,0\n' }).map(({ at }) => at);
    expect(fields).toContainEqual({ field: 'shape.batten' });
  });
});
