/** The printing thread, and plans of every age. */
import { expect, onTestFinished, test } from 'vitest';
import type { Plan } from '../../server/core/plan/plan.ts';
import { createPress } from '../../server/paper/createPress.ts';
import { makePaper, paperPages } from '../../server/paper/makePaper.ts';
import { PAPERS, type PaperTask } from '../../server/wire/request/papers.ts';
import { demoPlan } from '../kit/demoPlan.ts';
import { smallPlan } from '../web/smallRun.ts';

test('prints in a thread what is printed here, and goes on after a paper that cannot be drawn', async () => {
  const press = createPress();
  onTestFinished(() => press.close());
  const task: PaperTask = { plan: await demoPlan(), paper: 'which-way', size: 'a4' };
  const broken = { plan: { marks: null }, paper: 'which-way', size: 'a4' } as unknown as PaperTask;
  await expect(press.print(broken)).rejects.toThrow();
  const [there, here] = await Promise.all([press.print(task), makePaper(task)]);
  expect(Buffer.from(there).equals(Buffer.from(here))).toBe(true);
});

test.each(PAPERS)('%s of a plan that was kept before it told as much as today', async (paper) => {
  const { rip: _rip, sawTruth: _truth, ...old } = await demoPlan();
  for (const plan of [old, smallPlan(3), { ...smallPlan(2), curve: [], pickedUp: [] }] as readonly Plan[]) {
    const pages = paperPages({ plan, paper, size: 'a4' } as PaperTask);
    expect(pages.length).toBeGreaterThan(0);
    for (const { items } of pages) expect(items.length).toBeGreaterThan(3);
  }
});
