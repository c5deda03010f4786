import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { makePlan } from '../../../server/core/makePlan.ts';
import { quickTurnWarnings } from '../../../server/core/pace/quickTurn.ts';
import type { Plan } from '../../../server/core/plan/plan.ts';
import type { Pace } from '../../../server/core/routine/limits.ts';
import { aJob, picked } from '../../kit/aJob.ts';
import { demoPlan } from '../../kit/demoPlan.ts';
import { holds } from '../../kit/holds.ts';

const plan = (job = aJob()): Plan => {
  const made = makePlan(job);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value;
};

/** 150 mm with 1 s of words and half a second of reaction; a wheel of 2 degrees a second. */
const job = aJob({ crew: { turnsPerS: 1, feedMPerMin: 3 }, saw: { degreesPerTurn: 2 } });
const theMarks = (...changesDeg: readonly number[]) =>
  [0, ...changesDeg].map((_, i) => ({ mark: i + 1, callDeg: changesDeg.slice(0, i).reduce((a, b) => a + b, 0) }));
const aPace = (...changesDeg: readonly number[]): Pace => ({
  limitMPerMin: 6,
  limitedBy: 'wheel',
  durationS: 1,
  intervals: changesDeg.map((deg, i) => ({
    fromMark: i + 1,
    toMark: i + 2,
    lengthMm: 150,
    wordsS: 1,
    reactionS: 0.5,
    wheelS: deg / 2,
    limitMPerMin: 6,
    limitedBy: 'wheel',
  })),
});

describe('turns that are too quick', () => {
  test('the worst of them, with the way and the time that it needs, in one warning', () => {
    // Worked by hand: at 50 mm/s 75 mm are left. 3 degrees take (1.5 + 0.2) x 50 = 85 mm, and need 3 / 25 m, 120 mm, 2.4 s;
    // the least turn that shows the two figures, 2.5 degrees, 100 mm. 30 mm are spare of 150: 30 mm in 1.5 s is 1.2 m/min.
    const [warning, ...more] = quickTurnWarnings(job, aPace(1, 2, 3, 0), 25, theMarks(1, 2, 3, 0));
    expect(more).toStrictEqual([]);
    expect(warning).toMatchObject({ code: 'quick-turn', mark: 4 });
    expect(warning?.message).toMatch(
      /^At 3 m\/min the turn to mark 4 in one go takes 85 mm, .* over 120 mm, 2\.4 s .* leaves 75 mm\. At up to 1\.2 m\/min/,
    );
    expect(warning?.message).toContain('Even turning, with a measuring wheel');
    expect(quickTurnWarnings(job, aPace(3, 2.75, 0), 25, theMarks(3, 2.75, 0))[0]?.message).toContain(
      '(1 other turn is also too quick)',
    );
  });

  test('the worst is the one that lacks most way, wherever it stands', () => {
    // 2.75, 3 and 3.5 degrees need 110, 120 and 140 mm, and each is left 75.
    for (const changesDeg of [
      [3.5, 3, 2.75],
      [3, 3.5, 2.75],
      [2.75, 3, 3.5],
    ]) {
      const [warning] = quickTurnWarnings(job, aPace(...changesDeg), 25, theMarks(...changesDeg));
      expect(warning?.mark).toBe(changesDeg.indexOf(3.5) + 2);
      expect(warning?.message).toContain('over 140 mm');
    }
  });

  test('none where the way that it needs is there anyway', () => {
    expect(quickTurnWarnings(job, aPace(1, 1.5, 2), 25, theMarks(1, 1.5, 2))).toStrictEqual([]);
    expect(
      quickTurnWarnings({ ...job, crew: { ...job.crew, feedMPerMin: 1 } }, aPace(3), 25, theMarks(3)),
    ).toStrictEqual([]);
    expect(quickTurnWarnings(job, aPace(3), 35, theMarks(3))).toStrictEqual([]);
  });

  test('what the bevel itself changes too fast is the twist warning’s', () => {
    expect(quickTurnWarnings(job, aPace(3), 15, theMarks(3))).toStrictEqual([]);
  });

  test('no feed is named where hardly any room would be left for the call', () => {
    expect(quickTurnWarnings(job, aPace(3.5), 25, theMarks(3.5))[0]?.message).toContain('No feed leaves room');
  });

  test('in inches', () => {
    expect(quickTurnWarnings({ ...job, notation: 'decimal inches' }, aPace(3), 25, theMarks(3))[0]?.message).toMatch(
      /^At 9\.84 ft\/min .* over 4\.72 in/,
    );
  });
});

test('neither the demo nor a frame whose bevel changes gently is warned of', async () => {
  for (const { warnings } of [await demoPlan(), plan()]) expect(warnings).toStrictEqual([]);
});

test('a wilder frame is, at the crew’s feed or at the limit, until it is fed as slowly as the warning says', () => {
  const wild = (feedMPerMin: number) =>
    aJob({ shape: picked([0, 0], [600, 13.5], [1200, 12], [1800, 4]), crew: { feedMPerMin } });
  const quick = ({ warnings }: Plan) => warnings.filter(({ code }) => code === 'quick-turn');
  let told = 0;
  holds(
    fc.property(fc.double({ min: 0.5, max: 8, noNaN: true }), (feedMPerMin) => {
      const made = plan(wild(feedMPerMin));
      expect(made.warnings.map(({ code }) => code)).not.toContain('twist');
      const room = /At up to ([\d.]+) m\/min/.exec(quick(made)[0]?.message ?? '')?.[1];
      if (room === undefined) return;
      told += 1;
      expect(Number(room)).toBeLessThan(feedMPerMin);
      const { mark } = quick(made)[0] ?? {};
      expect(quick(plan(wild(Number(room))))[0]?.mark).not.toBe(mark);
    }),
    { numRuns: 30 },
  );
  expect(told).toBeGreaterThan(3);
});
