import { expect, test } from 'vitest';
import type { Job } from '../../../server/core/job.ts';
import { lineRadiusWarnings } from '../../../server/core/text/ripWarnings.ts';
import { aJob, picked } from '../../kit/aJob.ts';
import { planned } from '../../kit/planned.ts';
import { ripOf } from '../../kit/sawnFrame.ts';

/** Two degrees, then up by ten over 300 mm in the middle, then even again: 33 degrees a metre and more. */
const steep = (saw: Partial<Job['saw']> = {}) =>
  aJob({ shape: picked([0, 2], [400, 2], [600, 3], [900, 13], [1100, 14], [1500, 14], [1800, 14]), saw });

test('the twist after every mark is that of the bevels sawn, and the marks beyond the limit are named with what cures all of them', () => {
  const made = planned(steep());
  const { blade } = ripOf(made);
  expect(blade.marks.map(({ mark }) => mark)).toStrictEqual(made.marks.slice(0, -1).map(({ mark }) => mark));
  for (const [i, { degPerM, limitDegPerM, isTooFast }] of blade.marks.entries()) {
    const [from, to] = [made.marks[i], made.marks[i + 1]];
    if (from === undefined || to === undefined) throw new Error('no marks');
    const mean = (Math.abs(to.sawnDeg - from.sawnDeg) / (to.stockMm - from.stockMm)) * 1000;
    expect(degPerM).toBeGreaterThan(mean - 0.2);
    expect(isTooFast).toBe(degPerM > limitDegPerM);
  }
  const tooFast = blade.marks.filter(({ isTooFast }) => isTooFast);
  expect(tooFast.length).toBeGreaterThan(0);
  const warning = made.warnings.find(({ code }) => code === 'twist');
  expect(tooFast.map(({ mark }) => mark)).toContain(warning?.mark);
  expect(blade.cures.map(({ kind }) => kind)).toStrictEqual([
    'narrower blade',
    'more set',
    'more pieces',
    'follow the middle',
  ]);
  // Each cure, put into the job, gives a plan without the warning.
  for (const cure of blade.cures) {
    const cured =
      cure.kind === 'narrower blade'
        ? steep({ bladeWidthMm: cure.bladeWidthMm })
        : cure.kind === 'more set'
          ? steep({ kerfMm: cure.kerfMm })
          : cure.kind === 'more pieces'
            ? { ...steep(), frame: { ...steep().frame, sidingMm: steep().frame.sidingMm / cure.pieces } }
            : { ...steep(), rip: { feeds: 'along a line' as const, lineHeightMm: cure.tangentHeightMm } };
    expect(
      planned(cured).warnings.filter(({ code }) => code === 'twist'),
      cure.kind,
    ).toStrictEqual([]);
  }
});

test('where the blade follows all along there is nothing to cure', () => {
  const { blade } = ripOf(planned(aJob()));
  expect(blade.marks.filter(({ isTooFast }) => isTooFast)).toStrictEqual([]);
  expect(blade.cures).toStrictEqual([]);
});

test('a line that turns more sharply than the blade is fed along is warned of after its mark, with the blade that follows it', () => {
  const job = aJob({ saw: { bladeWidthMm: 32 } });
  const { marks } = planned(job);
  const at = (leastRadiusMm: number | null) =>
    lineRadiusWarnings(job, marks, { leastRadiusMm, leastRadiusAtMm: (marks[3]?.stockMm ?? 0) + 10 });
  expect(at(null)).toStrictEqual([]);
  expect(at(10_000)).toStrictEqual([]);
  expect(at(150)).toMatchObject([
    { code: 'twist', mark: 4, message: expect.stringContaining('19 mm wide, follows it') },
  ]);
  expect(at(5)[0]?.message).toContain('No blade follows it');
});

test('a plan warns of it', () => {
  // Through 30 degrees and back within a foot: nobody saws it, but nothing may pass unsaid.
  const rows = Array.from(
    { length: 31 },
    (_, i) => [i * 20, 1 + 30 * Math.exp(-(((i * 20 - 300) / 80) ** 2))] as const,
  );
  const made = planned(aJob({ shape: picked(...rows), saw: { bladeWidthMm: 50 } }));
  const { line, blade } = ripOf(made);
  expect(line.leastRadiusMm ?? Number.POSITIVE_INFINITY).toBeLessThan(blade.leastRadiusMm);
  expect(made.warnings.some(({ message }) => message.includes('the line turns in a radius'))).toBe(true);
});
