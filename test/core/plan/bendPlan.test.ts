import { describe, expect, test } from 'vitest';
import { lengthIn } from '../../../server/core/figures/lengths.ts';
import { bendCureSentences, bendSentence } from '../../../server/core/text/bendSentences.ts';
import { loadOffsetsDemo } from '../../../server/demo/loadDemo.ts';
import { parseJob } from '../../../server/wire/job/parseJob.ts';
import { aJob, picked } from '../../kit/aJob.ts';
import { demoPlan } from '../../kit/demoPlan.ts';
import { planned } from '../../kit/planned.ts';

/** Of a frame that is a circle of 1 m, bent over 1.2 m, bevel 14 degrees all along, siding 60: edges 3 and 3 + 60 tan 14 = 17.96. */
const circle = Array.from({ length: 25 }, (_, i) => {
  const turn = (i * 50) / 1000;
  return { yMm: 1000 * Math.sin(turn), zMm: 1000 * (1 - Math.cos(turn)) };
});
const job = aJob({
  frame: { sidingMm: 60, mouldingMm: 90 },
  shape: { ...picked([0, 14], [600, 14], [1200, 14]), pattern: { file: 'pattern.csv', points: circle } },
  saw: { bladeWidthMm: 50 },
});

test('a plan has the bend of both wedges at every mark, and which of them is too sharp', () => {
  const { bend, marks, warnings } = planned(job);
  expect(bend?.marks.map(({ mark }) => mark)).toStrictEqual(marks.map(({ mark }) => mark));
  const thickMm = 3 + 60 * Math.tan((14 * Math.PI) / 180);
  for (const { outer, inner, isTooSharp } of bend?.marks ?? []) {
    expect(outer.thicknessMm).toBeCloseTo(thickMm, 6);
    expect(inner.thicknessMm).toBeCloseTo(thickMm, 6);
    // Concave faces: the outer wedge's flat 3 mm in, the inner one's sawn face at the whole moulding; the pattern's own curvature within 3 mm.
    expect(Math.abs(outer.radiusMm - 997)).toBeLessThan(3);
    expect(Math.abs(inner.radiusMm - 910)).toBeLessThan(3);
    expect(inner.radiusOverThickness).toBeCloseTo(inner.radiusMm / thickMm, 6);
    expect(inner.strengthKept).toBeCloseTo(1 - 2000 * (thickMm / inner.radiusMm) ** 2, 6);
    expect(isTooSharp).toBe(true);
  }
  expect(bend?.cures.map(({ kind }) => kind)).toContain('rips');
  expect(warnings.filter(({ code }) => code === 'bend')).toHaveLength(1);
  expect(bend).toMatchObject({ species: 'white oak', leastRadiusOverThickness: 100 });
});

test('without a pattern nothing is said of a bend', () => {
  expect(planned(aJob()).bend).toMatchObject({ marks: [], cures: [] });
});

test('the demo frame can be built: both wedges bend as they are, and the blade follows line and bevel', async () => {
  const { bend, rip, warnings } = await demoPlan();
  expect(bend?.marks.length).toBeGreaterThan(5);
  expect(bend?.marks.filter(({ isTooSharp }) => isTooSharp)).toStrictEqual([]);
  expect(bend?.cures).toStrictEqual([]);
  expect(rip?.blade.marks.filter(({ isTooFast }) => isTooFast)).toStrictEqual([]);
  expect(rip?.line.leastRadiusMm ?? 0).toBeGreaterThan(rip?.blade.leastRadiusMm ?? 0);
  expect(
    warnings.map(({ code }) => code).filter((code) => ['bend', 'twist', 'stack-too-thin'].includes(code)),
  ).toStrictEqual([]);
});

test('the demo from offsets turns too sharply for wedges bent cold, and says which cure it uses', async () => {
  const { title, job, files } = await loadOffsetsDemo();
  const parsed = parseJob(job, files);
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  const { bend, warnings } = planned(parsed.value);
  expect(title).toContain('wedges steamed');
  expect(bend?.cures).toContainEqual(expect.objectContaining({ kind: 'steamed', strap: false }));
  expect(warnings.map(({ code }) => code)).not.toContain('twist');
});

describe('in words', () => {
  const mm = lengthIn('mm');
  test('where both wedges bend as they are, where one is too sharp, and where nothing turns', async () => {
    const { bend } = await demoPlan();
    const { bend: sharp } = planned(job);
    const { bend: straight } = planned(aJob());
    if (bend === undefined || sharp === undefined || straight === undefined) throw new Error('no bend');
    expect(bendSentence(bend, mm)).toMatch(
      /^The sharpest bend is the inner wedge's at mark 6: 12\.8 mm thick in a radius of \d+ mm, 106 times its thickness\. The published limit for white oak is 100; cold it breaks at about 59\. Both wedges bend as they are/,
    );
    expect(bendSentence(sharp, mm)).toContain(`Too sharp at ${sharp.marks.length} of ${sharp.marks.length} marks.`);
    expect(bendCureSentences(sharp, mm).length).toBe(sharp.cures.length);
    expect(bendCureSentences(sharp, mm)[0]).toMatch(/^Cure: \d planks of /);
    expect(bendSentence(straight, mm)).toContain('No bend to check');
  });
});
