import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { aJob, picked } from '../../kit/aJob.ts';
import { holds } from '../../kit/holds.ts';
import { planned } from '../../kit/planned.ts';

/** A hump of so many degrees in the middle of 1800 mm. */
const hump = (deg: number, spacingMm: number) =>
  planned(
    aJob({
      shape: picked(
        ...Array.from({ length: 37 }, (_, i): [number, number] => [i * 50, deg * Math.sin((Math.PI * i) / 36) ** 2]),
      ),
      marks: { kind: 'spacing', spacingMm },
    }),
  );

test('the worst that the bevel stands off an even turn is told of every plan, and where', () => {
  // Two marks, both at 0 degrees: all of the hump is between them, in the middle.
  const { betweenMarks, warnings } = hump(12, 1800);
  expect(betweenMarks?.worstDeg).toBeCloseTo(12, 1);
  expect(betweenMarks?.girthMm).toBeCloseTo(900, -1);
  const [warning, ...more] = warnings.filter(({ code }) => code === 'between-marks');
  expect(more).toStrictEqual([]);
  expect(warning).toMatchObject({ mark: 1 });
  expect(warning?.message).toMatch(
    /^Between marks 1 and 2, at girth \d+ mm, the bevel stands 12\.0° off an even turn from mark to mark\. Closer marks help: \d+ of them/,
  );
});

test('the marks that are offered keep it within half a degree, and close marks are not warned of', () => {
  for (const shape of [hump12(), picked([0, -20], [150, -14], [300, -3], [450, 4], [600, 8], [750, 10], [900, 10])]) {
    const { warnings } = planned(aJob({ shape, marks: { kind: 'spacing', spacingMm: 1800 } }));
    const said = warnings.find(({ code }) => code === 'between-marks')?.message ?? '';
    const [, offered, toleranceDeg] =
      /help: (\d+) of them, placed by "marks": \{ "tolerance": ([\d.]+) \}/.exec(said) ?? [];
    const cured = planned(aJob({ shape, marks: { kind: 'tolerance', toleranceDeg: Number(toleranceDeg) } }));
    expect(cured.marks).toHaveLength(Number(offered));
    expect(cured.betweenMarks?.worstDeg).toBeLessThan(0.5);
  }
  expect(hump(2, 150).warnings.map(({ code }) => code)).not.toContain('between-marks');
});

test('it is warned of from half a degree on', () => {
  const isWarned = (deg: number): boolean => hump(deg, 1800).warnings.some(({ code }) => code === 'between-marks');
  expect([isWarned(0.45), isWarned(0.6)]).toEqual([false, true]);
});

function hump12() {
  return picked(
    ...Array.from({ length: 37 }, (_, i): [number, number] => [i * 50, 12 * Math.sin((Math.PI * i) / 36) ** 2]),
  );
}

test('no place of the plan’s own curve stands farther off than is told', () => {
  holds(
    fc.property(
      fc.array(fc.double({ min: 2, max: 20, noNaN: true }), { minLength: 4, maxLength: 10 }),
      fc.integer({ min: 100, max: 1500 }),
      (bevels, spacingMm) => {
        const { curve, marks, betweenMarks } = planned(
          aJob({
            shape: picked(...bevels.map((deg, i): [number, number] => [i * 250, deg])),
            marks: { kind: 'spacing', spacingMm },
          }),
        );
        // Second computation, over the drawn curve; without a pattern the stock lies along the girth.
        const worst = Math.max(
          ...curve.map(({ girthMm, bevelDeg }) => {
            const next = marks.findIndex((mark) => mark.girthMm >= girthMm - 1e-9);
            const [from, to] = [marks[Math.max(0, next - 1)], marks[Math.max(1, next)]];
            if (from === undefined || to === undefined) return 0;
            const share = (girthMm - from.girthMm) / (to.girthMm - from.girthMm);
            return Math.abs(bevelDeg - (from.sawnDeg + share * (to.sawnDeg - from.sawnDeg)));
          }),
        );
        expect(betweenMarks?.worstDeg ?? 0).toBeGreaterThan(worst * 0.97 - 0.02);
        expect(betweenMarks?.worstDeg ?? 0).toBeLessThan(worst * 1.03 + 0.1);
      },
    ),
    { numRuns: 40 },
  );
});
