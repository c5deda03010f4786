/** What is offered as a cure is one: the job so changed, as it is written, is planned without the warning. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { planWithCures } from '../../server/core/cures/tryCures.ts';
import { makePlan } from '../../server/core/makePlan.ts';
import { forbiddingWarnings, standsAgainst } from '../../server/core/plan/forbids.ts';
import type { Plan } from '../../server/core/plan/plan.ts';
import type { JobFiles } from '../../server/web/webPorts.ts';
import { mergePatch } from '../../server/wire/job/mergePatch.ts';
import { parseJob } from '../../server/wire/job/parseJob.ts';
import { cases } from '../kit/cases.ts';
import { FORBIDDEN, forbiddenJob } from '../kit/forbiddenJobs.ts';

function plannedBy(make: typeof makePlan, { job, files }: JobFiles): Plan | undefined {
  const parsed = parseJob(job, files);
  const made = parsed.ok ? make(parsed.value) : parsed;
  return made.ok ? made.value : undefined;
}

/** How often each kind was offered. */
function holds(files: JobFiles): readonly string[] {
  const plan = plannedBy(planWithCures, files);
  if (plan === undefined) return [];
  const before = new Set(plan.warnings.map(({ code }) => code));
  return plan.warnings.flatMap((warning) =>
    (warning.cures ?? []).map((cure) => {
      expect(standsAgainst(warning)).toBe(true);
      expect(cure.text).not.toMatch(/NaN|undefined|Infinity/);
      if (cure.kind === 'routine') {
        expect(forbiddingWarnings(plan, cure.routine).map(({ code }) => code)).not.toContain(warning.code);
        return cure.kind;
      }
      const cured = plannedBy(makePlan, { ...files, job: mergePatch(files.job, cure.change) });
      const left = cured?.warnings.filter((each) => each.code === warning.code || !before.has(each.code)) ?? [];
      expect({ cure, left: cured === undefined ? 'no plan' : left.filter((each) => standsAgainst(each)) }).toEqual({
        cure,
        left: [],
      });
      return cure.kind;
    }),
  );
}

describe('offered', () => {
  test.each([
    ['tilt-out-of-reach', ['heel length', 'head length']],
    ['which-end-unsure', ['state it']],
    ['twist', ['narrower blade']],
    ['quick-turn', ['narrower blade', 'routine']],
    ['stack-too-thin', ['deeper moulding']],
  ] as const)('for %s: %j at the least', (code, kinds) => {
    const offered = holds(FORBIDDEN[code]);
    for (const kind of kinds) expect(offered).toContain(kind);
  });

  test('for a frame that only the saw’s other side reaches', () => {
    const files = forbiddenJob({ saw: { tilt: [-45, 5] }, crew: { feedMPerMin: 1 } }, 1800, [4, 6, 8, 10, 12]);
    expect(holds(files)).toContain('other side');
    const cure = plannedBy(planWithCures, files)
      ?.warnings.flatMap(({ cures }) => cures ?? [])
      .find(({ kind }) => kind === 'other side');
    const { leans } = (files.job as { saw: { leans: string } }).saw;
    expect(cure).toMatchObject({
      change: { saw: { leans: leans === 'left' ? 'right' : 'left', tilt: [-5, 45], readoutTable: null } },
    });
  });

  test('closer marks, for a wheel that turns fast', () => {
    const change = { marks: { spacing: 100 }, saw: { bladeWidth: 38, degreesPerTurn: 8 } };
    expect(holds(forbiddenJob(change, 2400, [4, 8, 12, 16, 20]))).toContain('closer marks');
  });

  test('nothing where nothing forbids', () => {
    expect(holds(forbiddenJob({ crew: { feedMPerMin: 1 } }, 1800, [4, 6, 8, 6, 4]))).toEqual([]);
  });
});

const jobs = fc
  .record({
    units: fc.constantFrom('mm' as const, 'in' as const),
    marks: fc.constantFrom({ spacing: 150 }, { spacing: 400 }, { tolerance: 0.5 }, { at: [0, 210, 430, 800, 1000] }),
    tilt: fc.constantFrom([-5, 45], [-45, 5], [0, 20], [-5, 12]),
    bladeWidth: fc.constantFrom(16, 25, 50),
    degreesPerTurn: fc.constantFrom(2, 9),
    feedMPerMin: fc.constantFrom(1, 3, 5),
    moulding: fc.constantFrom(22, 40, 75),
    lengthMm: fc.constantFrom(1000, 1900),
    from: fc.integer({ min: -25, max: 25 }),
    to: fc.integer({ min: -25, max: 40 }),
    side: fc.constantFrom('port', null),
  })
  .map((some): JobFiles => {
    const unitMm = some.units === 'mm' ? 1 : 25.4;
    const inUnits = (mm: number): number => mm / unitMm;
    const marks = Object.fromEntries(
      Object.entries(some.marks).map(([name, value]) => [
        name,
        name === 'tolerance' ? value : Array.isArray(value) ? value.map(inUnits) : inUnits(value as number),
      ]),
    );
    const bevels = Array.from({ length: 7 }, (_, i) => some.from + ((some.to - some.from) * i) / 6);
    const change = {
      units: some.units,
      frame: { siding: inUnits(48), moulding: inUnits(some.moulding), side: some.side },
      marks: { spacing: null, ...marks },
      saw: {
        kerf: inUnits(2.4),
        bladeWidth: inUnits(some.bladeWidth),
        bladeThickness: inUnits(1.1),
        tilt: some.tilt,
        degreesPerTurn: some.degreesPerTurn,
      },
      crew: { feedMPerMin: some.feedMPerMin },
      stack: { lamination: inUnits(3.2) },
    };
    return forbiddenJob(change, some.lengthMm / unitMm, bevels);
  });

test('every cure of any job is one', () => {
  fc.assert(
    fc.property(jobs, (files) => void holds(files)),
    { numRuns: cases(40) },
  );
}, 120_000);
