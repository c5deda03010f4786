/** The way of what is learnt: a rehearsal with a tilt sensor, its record, a yes, the start page, the next run. */
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it, onTestFinished } from 'vitest';
import { usualHand } from '../../server/core/hand/traits.ts';
import { openJournal } from '../../server/journal/openJournal.ts';
import { madeUpRun } from '../journal/madeUpRun.ts';
import { openChromium } from '../kit/chromium.ts';
import { outsideClient } from '../kit/client.ts';
import { demoPlan } from '../kit/demoPlan.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { modelledEntries, setupOf } from '../kit/modelledHand.ts';
import { startProgram } from '../kit/program.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

const REACTION_S = 0.42;
const TURNS_PER_S = 1.1;

/** A kept rehearsal of the demo, gone through with a modelled hand and a tilt sensor. */
async function keptRehearsal(dataDir: string): Promise<string> {
  const plan = await demoPlan();
  const { degreesPerTurn, readoutDeg } = plan.saw;
  const hand = usualHand({ reactionS: REACTION_S, turnsPerS: TURNS_PER_S }, degreesPerTurn, readoutDeg);
  const traits = { ...hand, reactionSpread: 0, misheard: 0, unheard: 0, slips: 0 };
  const journal = openJournal({ file: join(dataDir, 'journal.sqlite') });
  journal.keepRun({ ...madeUpRun('r1', 0), feed: { kind: 'external' }, plan, setup: setupOf(plan) });
  journal.append('r1', 1, modelledEntries({ plan, traits, seed: 1 }));
  journal.close();
  return 'r1';
}

it('keeps what a rehearsal tells of its tilt hand only after a yes, plans and runs with it, and forgets it again', async () => {
  const dataDir = freeDataDir();
  const run = await keptRehearsal(dataDir);
  const program = await startProgram(dataDir);
  onTestFinished(() => program.end('SIGKILL'));
  const here = outsideClient(program.url);
  const context = await browser.newContext();
  onTestFinished(() => context.close());
  context.setDefaultTimeout(30_000);

  const record = await context.newPage();
  await record.goto(`${program.url}/record?run=${run}`);
  const panel = record.locator('.hand-panel');
  await panel.getByText('from the end of the words to the wheel moving').waitFor();
  const [reactionS, turnsPerS] = (await panel.locator('.hand-figure').allTextContents()).map(Number);
  expect(Math.abs((reactionS ?? 0) - REACTION_S)).toBeLessThan(0.07);
  expect(Math.abs((turnsPerS ?? 0) - TURNS_PER_S)).toBeLessThan(0.11);
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
