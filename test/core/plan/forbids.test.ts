/** The one rule of what forbids the cut. */
import { describe, expect, test } from 'vitest';
import { makePlan } from '../../../server/core/makePlan.ts';
import {
  againstRun,
  forbiddingWarnings,
  forbids,
  inSpiteOf,
  isRefused,
  madeInSpiteOf,
  standsAgainst,
} from '../../../server/core/plan/forbids.ts';
import type { Plan } from '../../../server/core/plan/plan.ts';
import { ROUTINES } from '../../../server/core/routine/routine.ts';
import type { WarningCode } from '../../../server/core/warning.ts';
import { parseJob } from '../../../server/wire/job/parseJob.ts';
import { demoPlan } from '../../kit/demoPlan.ts';
import { FORBIDDEN, forbiddenJob } from '../../kit/forbiddenJobs.ts';

function planned({ job, files }: { readonly job: unknown; readonly files: Readonly<Record<string, string>> }): Plan {
  const parsed = parseJob(job, files);
  const made = parsed.ok ? makePlan(parsed.value) : parsed;
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value;
}
const codesOf = (warnings: readonly { readonly code: WarningCode }[]): readonly string[] => [
  ...new Set(warnings.map(({ code }) => code)),
];

const TO_CONFIRM = 'which-end-unsure';
test.each(Object.entries(FORBIDDEN))(
  '%s stands against the cut, and the plan says at the warning what forbids it',
  (code, files) => {
    const plan = planned(files);
    expect(codesOf(forbiddingWarnings(plan))).toEqual([code]);
    for (const warning of plan.warnings)
      expect(warning.forbids).toBe(warning.code === code && code !== TO_CONFIRM ? true : undefined);
  },
);

test('advice forbids nothing', async () => {
  const advice: readonly WarningCode[] = ['pace', 'short-interval', 'readout-table', 'both-hands', 'suspect-bevel'];
  for (const code of advice) expect(forbids({ code, message: '' })).toBe(false);
  expect(forbiddingWarnings(await demoPlan())).toEqual([]);
});

test('which end leads is confirmed at the page: no request is refused for it', () => {
  const against = forbiddingWarnings(planned(FORBIDDEN[TO_CONFIRM]));
  expect(codesOf(against)).toEqual([TO_CONFIRM]);
  expect(isRefused(against, 'mark by mark', undefined)).toBe(false);
  const twisted = forbiddingWarnings(planned(FORBIDDEN.twist));
  expect([undefined, 'seen by two'].map((words) => isRefused(twisted, 'mark by mark', words))).toEqual([true, false]);
});

test('all else stands against it in every routine', () => {
  for (const code of [...(Object.keys(FORBIDDEN) as (keyof typeof FORBIDDEN)[]), 'bend'] as const)
    for (const routine of ROUTINES)
      expect(standsAgainst({ code, message: '' }, routine)).toBe(code !== 'quick-turn' || routine === 'mark by mark');
});

test('a turn in one go forbids where it is made: mark by mark', () => {
  const plan = planned(FORBIDDEN['quick-turn']);
  for (const routine of ROUTINES)
    expect(codesOf(forbiddingWarnings(plan, routine))).toEqual(routine === 'mark by mark' ? ['quick-turn'] : []);
});

test('a bevel of the other hand between two marks is out of reach too', () => {
  // Under between 500 and 700 alone, where no mark stands.
  const plan = planned(
    forbiddenJob(
      { marks: { at: [0, 300, 1200, 1800], spacing: null }, saw: { tilt: [0, 45] } },
      1800,
      [8, 4, 0.5, -3, 0.5, 4, 6, 8, 10],
    ),
  );
  for (const { sawnDeg } of plan.marks) expect(sawnDeg).toBeGreaterThan(0);
  const [warning] = plan.warnings.filter(({ code }) => code === 'tilt-out-of-reach');
  expect(warning).toMatchObject({ forbids: true, mark: 2 });
});

describe('a run', () => {
  test('is refused in any mode but a rehearsal, which saws nothing', () => {
    const plan = planned(FORBIDDEN.twist);
    for (const mode of ['pair', 'solo'] as const)
      expect(codesOf(againstRun(plan, { mode, routine: 'following' }))).toEqual(['twist']);
    expect(againstRun(plan, { mode: 'rehearsal', routine: 'mark by mark' })).toEqual([]);
  });

  test('made in spite of it carries the words and what forbade it; where nothing forbids, no words', async () => {
    const plan = planned(FORBIDDEN.twist);
    const made = inSpiteOf(plan, 'a trial', againstRun(plan, { mode: 'pair', routine: 'mark by mark' }));
    expect(made.despite).toEqual({ words: 'a trial', codes: ['twist'] });
    expect(codesOf(madeInSpiteOf(made))).toEqual(['twist']);
    const demo = await demoPlan();
    expect(inSpiteOf(demo, 'a trial', []).despite).toBeUndefined();
    expect(madeInSpiteOf(demo)).toEqual([]);
  });
});
