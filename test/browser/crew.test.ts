/** The way of what is learnt: a rehearsal with a tilt sensor, its record, a yes, the start page, the next run. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it, onTestFinished } from 'vitest';
import { openChromium } from '../kit/chromium.ts';
import { outsideClient } from '../kit/client.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { liveHand } from '../kit/liveHand.ts';
import { startProgram } from '../kit/program.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

const DEGREES_PER_TURN = 4;
/** Eight marks, two degrees from each to the next: short words and short turns. */
const SHORT_JOB = {
  job: {
    format: 'by-the-mark/job@1',
    title: 'A short rehearsal',
    frame: { siding: 40 },
    shape: { pickup: 'pickup.csv' },
    marks: { spacing: 150 },
    saw: { degreesPerTurn: DEGREES_PER_TURN, readout: 1, tilt: [-5, 45] },
    crew: { turnsPerS: 2, feedMPerMin: 3 },
  },
  files: { 'pickup.csv': `girth,bevel\n${Array.from({ length: 8 }, (_, i) => `${150 * i},${2 + 2 * i}`).join('\n')}` },
};

it('keeps what a rehearsal tells of its tilt hand only after a yes, plans and runs with it, and forgets it again', async () => {
  const program = await startProgram(freeDataDir());
  onTestFinished(() => program.end('SIGKILL'));
  const here = outsideClient(program.url);
  const context = await browser.newContext();
  onTestFinished(() => context.close());
  context.setDefaultTimeout(8000);

  const made = await here.post('/api/runs', { ...SHORT_JOB, mode: 'rehearsal', feed: { kind: 'external' } });
  expect(made.status).toBe(201);
  const { run, plan } = made.json as { run: string; plan: { leads: string; marks: { mark: number }[] } };
  const hand = await liveHand(here, run, { reactionMs: 420, degPerMs: 0.0044 });
  onTestFinished(() => hand.close());
  await here.post(`/api/runs/${run}/start`);
  for (const { mark } of plan.leads === 'head' ? plan.marks.toReversed() : plan.marks) {
    await hand.until(mark);
    hand.press();
  }
  await expect.poll(async () => (await here.get(`/api/runs/${run}`)).json.state).toBe('finished');
  hand.close();

  const record = await context.newPage();
  await record.goto(`${program.url}/record?run=${run}`);
  const panel = record.locator('.hand-panel');
  await panel.getByText('from the end of the words to the wheel moving').waitFor();
  const [reactionS, turnsPerS] = (await panel.locator('.hand-figure').allTextContents()).map(Number);
  expect(Math.abs((reactionS ?? 0) - 0.42)).toBeLessThan(0.07);
  expect(Math.abs((turnsPerS ?? 0) - 1.1)).toBeLessThan(0.11);
  expect((await here.get('/api/crew')).json).toEqual([]);
  const keep = panel.getByRole('button', { name: 'Keep' });
  await panel.getByLabel('Name or initials').fill('KT');
  expect(await keep.isDisabled()).toBe(true);
  await panel.getByLabel('Yes, I agree').check();
  await keep.click();
  await panel.getByText('Kept for KT').waitFor();

  const { json: crew } = await here.get('/api/crew');
  const [member] = crew;
  expect(member).toMatchObject({ name: 'KT', runs: [run] });
  const start = await context.newPage();
  await start.goto(program.url);
  const tiltHand = start.getByRole('region', { name: 'Tilt hand' });
  await tiltHand.getByText(`Reaction ${member.reactionS.toFixed(2)} s`).waitFor();
  await tiltHand.getByRole('radio', { name: /^KT/ }).check();
  await tiltHand.getByText('made with KT’s figures').waitFor();
  await start.getByRole('button', { name: 'Make this run' }).click();
  await start.waitForURL(/\/sawyer\?run=/);
  const next = new URL(start.url()).searchParams.get('run');
  const crewOf = async () => (await here.get(`/api/runs/${next}/plan`)).json.crew;
  const figures = { reactionS: member.reactionS, turnsPerS: member.turnsPerS, feedMPerMin: 3 };
  expect(await crewOf()).toEqual({ ...figures, tiltHand: 'KT', learnt: ['reactionS', 'turnsPerS'] });

  await record.getByRole('button', { name: 'Forget KT' }).click();
  await record.getByRole('button', { name: 'Yes, forget' }).click();
  await panel.getByLabel('Name or initials').waitFor();
  expect((await here.get('/api/crew')).json).toEqual([]);
  expect(await crewOf()).toEqual(figures);
  const { json: demo } = await here.get('/api/jobs/demo');
  const refused = await here.post('/api/plan', { ...demo, tiltHand: 'KT' });
  expect([refused.status, refused.json.error.path]).toEqual([400, 'tiltHand']);
  const alsoRefused = await here.post('/api/runs', {
    ...demo,
    tiltHand: 'KT',
    mode: 'pair',
    feed: { kind: 'external' },
  });
  expect([alsoRefused.status, alsoRefused.json.error.code]).toEqual([400, 'unknown-name']);
});
