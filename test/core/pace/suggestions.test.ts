import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Job } from '../../../server/core/job.ts';
import { makePlan } from '../../../server/core/makePlan.ts';
import type { Plan } from '../../../server/core/plan/plan.ts';
import type { PaceSuggestion } from '../../../server/core/routine/limits.ts';
import { suggestionText } from '../../../server/core/text/suggestionText.ts';
import { aJob, picked } from '../../kit/aJob.ts';
import { cases } from '../../kit/cases.ts';
import { holds } from '../../kit/holds.ts';

function plan(job: Job): Plan {
  const made = makePlan(job);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value;
}
const suggested = ({ pace }: Plan): readonly PaceSuggestion[] => pace.suggestions ?? [];
const between = ({ pace }: Plan, lower: number, upper: number) =>
  pace.intervals.filter(
    ({ fromMark, toMark }) => Math.min(fromMark, toMark) >= lower && Math.max(fromMark, toMark) <= upper,
  );
const leastOf = (intervals: Plan['pace']['intervals']): number =>
  Math.min(...intervals.map(({ limitMPerMin }) => limitMPerMin));

/** Frames that are slow here and there: a close stretch of marks, a steep turn, a saw with a fine wheel. */
const slowJobs: fc.Arbitrary<Job> = fc
  .record({
    turnDeg: fc.integer({ min: 6, max: 24 }),
    close: fc.array(fc.integer({ min: 45, max: 120 }), { minLength: 1, maxLength: 6 }),
    wide: fc.integer({ min: 150, max: 260 }),
    side: fc.constantFrom('port' as const, 'starboard' as const),
    form: fc.constantFrom('angle' as const, 'mark and angle' as const),
    degreesPerTurn: fc.integer({ min: 1, max: 6 }),
    feedMPerMin: fc.integer({ min: 2, max: 8 }),
    units: fc.constantFrom('mm' as const, 'in' as const),
  })
  .map(({ turnDeg, close, wide, side, form, degreesPerTurn, feedMPerMin, units }) => {
    const girthsMm = [0, wide, 2 * wide];
    for (const mm of close) girthsMm.push((girthsMm.at(-1) ?? 0) + mm);
    while ((girthsMm.at(-1) ?? 0) + wide < 2000) girthsMm.push((girthsMm.at(-1) ?? 0) + wide);
    return aJob({
      units,
      frame: { side },
      shape: picked([0, 3], [500, turnDeg / 2], [900, turnDeg], [1400, turnDeg / 2], [2000, 2]),
      marks: { kind: 'at', girthsMm },
      saw: { degreesPerTurn },
      crew: { feedMPerMin },
      voice: { form },
    });
  });

test('there is none where the crew’s feed is within the limit, and some where it is not', () => {
  holds(
    fc.property(slowJobs, (job) => {
      const made = plan(job);
      expect(suggested(made).length > 0).toBe(job.crew.feedMPerMin > made.pace.limitMPerMin);
    }),
    { numRuns: cases(40) },
  );
});

test('slowed down where it says, the rip keeps to every interval, and takes as long as it says', () => {
  holds(
    fc.property(slowJobs, (job) => {
      const made = plan(job);
      const slow = suggested(made).filter((suggestion) => suggestion.kind === 'slow');
      const feeds = made.pace.intervals.map((interval) => {
        const here = slow.find(({ fromMark, toMark }) => between(made, fromMark, toMark).includes(interval));
        return here?.toMPerMin ?? job.crew.feedMPerMin;
      });
      made.pace.intervals.forEach(({ limitMPerMin }, i) => {
        expect(feeds[i]).toBeLessThanOrEqual(limitMPerMin + 1e-9);
      });
      for (const { fromMark, toMark, toMPerMin, durationS } of slow) {
        expect(leastOf(between(made, fromMark, toMark)) - toMPerMin).toBeLessThan(0.01 + 1e-9);
        const takesS = made.pace.intervals.reduce(
          (sum, { lengthMm }, i) => sum + (lengthMm * 0.06) / (feeds[i] ?? 1),
          0,
        );
        expect(durationS).toBeCloseTo(takesS, 9);
      }
    }),
    { numRuns: cases(40) },
  );
});

test('with the marks that it proposes, a new plan allows what was promised', () => {
  let proposed = 0;
  holds(
    fc.property(slowJobs, (job) => {
      const made = plan(job);
      for (const suggestion of suggested(made)) {
        if (suggestion.kind !== 'marks') continue;
        proposed += 1;
        const { girthsMm, fromMark, toMark, moreMarks, allowsMPerMin } = suggestion;
        const anew = plan({ ...job, marks: { kind: 'at', girthsMm } });
        expect(anew.marks.length - made.marks.length).toBe(moreMarks);
        const limit = leastOf(between(anew, fromMark, toMark + moreMarks));
        expect(limit).toBeGreaterThan(allowsMPerMin - 1e-3);
        expect(limit).toBeLessThan(allowsMPerMin + 0.011);
        expect(allowsMPerMin).toBeGreaterThan(leastOf(between(made, fromMark, toMark)));
      }
    }),
    { numRuns: cases(40) },
  );
  expect(proposed).toBeGreaterThan(5);
});

test('the routine that it proposes allows the crew’s own feed', () => {
  holds(
    fc.property(slowJobs, (job) => {
      const made = plan(job);
      for (const suggestion of suggested(made)) {
        if (suggestion.kind !== 'routine') continue;
        const limit = made.pace.routines?.[suggestion.routine].limitMPerMin ?? Number.POSITIVE_INFINITY;
        expect(limit).toBeGreaterThanOrEqual(job.crew.feedMPerMin);
        if (suggestion.allowsMPerMin !== null) expect(limit - suggestion.allowsMPerMin).toBeLessThan(0.01);
      }
    }),
    { numRuns: cases(40) },
  );
});

test('the words that it proposes are fewer, and a new plan in them allows what it says', () => {
  let proposed = 0;
  holds(
    fc.property(slowJobs, (job) => {
      const made = plan(job);
      for (const suggestion of suggested(made)) {
        if (suggestion.kind !== 'words') continue;
        proposed += 1;
        const { form, numbers, allowsMPerMin } = suggestion;
        const { limitMPerMin } = plan({ ...job, voice: { ...job.voice, form, numbers } }).pace;
        expect(limitMPerMin).toBeGreaterThanOrEqual(allowsMPerMin);
        expect(limitMPerMin - allowsMPerMin).toBeLessThan(0.01);
        expect(limitMPerMin).toBeGreaterThan(made.pace.limitMPerMin);
      }
    }),
    { numRuns: cases(40) },
  );
  expect(proposed).toBeGreaterThan(3);
});

test('a saw that takes no more: to feed slower is all that is proposed', () => {
  const made = plan(aJob({ saw: { feedMPerMin: 0.8 }, crew: { feedMPerMin: 2 } }));
  expect(made.pace).toMatchObject({ limitMPerMin: 0.8, limitedBy: 'saw' });
  expect(suggested(made)).toMatchObject([{ kind: 'slow', fromMark: 1, toMark: 13, toMPerMin: 0.8 }]);
  expect(made.warnings).toMatchObject([{ code: 'pace', message: expect.stringContaining('The limit is 0.8 m/min') }]);
});

test('says it in a sentence', () => {
  const say = {
    feed: (mPerMin: number) => `${mPerMin} m/min`,
    length: (mm: number) => `${mm} mm`,
    duration: (s: number) => `${s} s`,
  };
  expect(suggestionText({ kind: 'slow', fromMark: 7, toMark: 9, toMPerMin: 2.1, durationS: 44 }, say)).toBe(
    'Slow to 2.1 m/min between marks 7 and 9: the rip then takes 44 s.',
  );
  const marks = {
    kind: 'marks',
    fromMark: 3,
    toMark: 8,
    spacingMm: 190,
    girthsMm: [],
    moreMarks: -2,
    allowsMPerMin: 3.4,
  };
  expect(suggestionText({ ...marks, kind: 'marks' }, say)).toBe(
    'Marks about 190 mm apart between marks 3 and 8 (2 fewer) would allow 3.4 m/min there.',
  );
  expect(suggestionText({ kind: 'words', form: 'angle', numbers: 'natural', allowsMPerMin: 4 }, say)).toBe(
    'The angle alone, in natural numbers ("twelve and a half"), would allow 4 m/min.',
  );
  expect(suggestionText({ kind: 'routine', routine: 'even turning', allowsMPerMin: 5 }, say)).toBe(
    'With a measuring wheel, even turning would allow 5 m/min.',
  );
  expect(suggestionText({ kind: 'routine', routine: 'following', allowsMPerMin: null }, say)).toContain('any feed');
});
