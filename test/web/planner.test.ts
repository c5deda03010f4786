import { expect, onTestFinished, test } from 'vitest';
import { loadDemo } from '../../server/demo/loadDemo.ts';
import { createPlanner } from '../../server/workers/createPlanner.ts';

function openPlanner(options?: { limitS: number }) {
  const planner = createPlanner(options);
  onTestFinished(() => planner.close());
  return planner;
}

test('plans in a thread of its own, one job after the other', async () => {
  const planner = openPlanner();
  const demo = await loadDemo();
  const [good, bad, again] = await Promise.all([
    planner.plan(demo),
    planner.plan({ job: { format: 'by-the-mark/job@1' }, files: {} }),
    planner.plan(demo),
  ]);
  expect(good).toMatchObject({ ok: true, plan: { format: 'by-the-mark/plan@1' } });
  expect(bad).toMatchObject({ ok: false });
  expect(!bad.ok && bad.problems.length).toBeGreaterThan(0);
  expect(again).toEqual(good);
});

test('cuts off what takes too long, and plans the next', async () => {
  const demo = await loadDemo();
  const hasty = openPlanner({ limitS: 0.001 });
  const cut = await hasty.plan(demo);
  expect(cut).toMatchObject({ ok: false, problems: [{ code: 'cannot-be-met', found: 'no plan after 0.001 s' }] });
});

test('more than enough waiting plans are refused, not kept', async () => {
  const planner = openPlanner();
  const demo = await loadDemo();
  const empty = { job: {}, files: {} };
  const outcomes = await Promise.all(Array.from({ length: 60 }, () => planner.plan(empty)));
  const codes = outcomes.map((outcome) => (outcome.ok ? 'ok' : outcome.problems[0]?.code));
  expect(codes.filter((code) => code === 'too-many').length).toBeGreaterThan(0);
  expect(codes.filter((code) => code === 'missing').length).toBeGreaterThan(0);
  expect(await planner.plan(demo)).toMatchObject({ ok: true });
});
