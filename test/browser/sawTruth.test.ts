/** Square at zero, the trial and a piece that is saved, on the pages, in a real browser. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it, onTestFinished } from 'vitest';
import { sawnAlong } from '../../server/core/sawn/trial.ts';
import { openChromium } from '../kit/chromium.ts';
import { outsideClient } from '../kit/client.ts';
import { demoPlan } from '../kit/demoPlan.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { startProgram } from '../kit/program.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

async function house() {
  const program = await startProgram(freeDataDir());
  onTestFinished(() => program.end('SIGKILL'));
  const page = await browser.newPage();
  onTestFinished(() => page.close());
  page.setDefaultTimeout(30_000);
  return { ...outsideClient(program.url), url: program.url, page };
}
const press = (page: Page, name: string | RegExp): Promise<void> => page.getByRole('button', { name }).click();

it('the sawyer’s page starts no rip before the blade is squared, and none for a readout that shows otherwise', async () => {
  const { url, page, makeDemoRun, get, journal } = await house();
  const { run } = await makeDemoRun();
  await page.goto(`${url}/sawyer?run=${run}`);
  await page.locator('button.next').click();
  await page.locator('.heard', { hasText: 'square the blade at zero first' }).waitFor();
  expect((await get(`/api/runs/${run}`)).json.state).toBe('ready');
  // Half a degree that cannot be set away: the run is made anew, every call half a degree more.
  await page.locator('.square input').fill('0.5');
  await press(page, /cannot be set/);
  await page.locator('.square-done', { hasText: '0.50°' }).waitFor();
  const anew = new URL(page.url()).searchParams.get('run') ?? '';
  expect(anew).not.toBe(run);
  await page.locator('button.next').click();
  await press(page, 'Start without sound');
  await page.locator('[data-state="feeding"]').waitFor();
  const kinds = (await journal(anew)).map(({ kind }) => kind);
  expect(kinds.slice(0, 3)).toEqual(['made', 'squared', 'started']);
});

it('once the blade is squared nothing asks for it, and in a run nobody is asked to try the pedal', async () => {
  const { url, page, makeDemoRun } = await house();
  const { run } = await makeDemoRun();
  await page.goto(`${url}/sawyer?run=${run}`);
  await page.locator('button.next').click();
  await page.locator('.heard', { hasText: 'square the blade at zero first' }).waitFor();
  await press(page, /^Blade square/);
  await page.locator('.heard', { hasText: 'Try the pedal' }).waitFor();
  await page.locator('button.next').click();
  await press(page, 'Start without sound');
  await page.locator('[data-state="feeding"]').waitFor();
  // The page opened again: a press would count now, so it is no trial.
  await page.reload();
  await page.locator('.heard', { hasText: 'Each press is shown here.' }).waitFor();
  expect(await page.locator('.heard').textContent()).not.toContain('Try the pedal');
});

it('a rehearsal asks for no square', async () => {
  const { url, page, makeDemoRun } = await house();
  const { run } = await makeDemoRun('rehearsal');
  await page.goto(`${url}/sawyer?run=${run}`);
  await page.locator('button.next').click();
  await press(page, 'Start without sound');
  await page.locator('[data-state="feeding"]').waitFor();
  expect(await page.locator('.square').count()).toBe(0);
});

it('a piece is saved, and a trial made and read, on the start page', async () => {
  const { url, page } = await house();
  const plan = await demoPlan();
  const sawn = sawnAlong(plan);
  // As it is pasted out of a sheet: tabs, and no heading.
  const rows = Array.from({ length: 28 }, (_, i) => `${-110 + 75 * i}\t${sawn(-110 + 75 * i + 60).toFixed(1)}`);
  await page.goto(url);
  await page.locator('.save-piece summary').click();
  await page.locator('.save-piece textarea').fill(rows.join('\n'));
  await press(page, 'Can it be saved?');
  await page.locator('.verdict-fits').waitFor();
  await page.getByText(/Strike all marks anew, (59|60|61) mm nearer to the heel end/).waitFor();
  await page.locator('.save-piece textarea').fill('0, 4\n10, x\n');
  await press(page, 'Can it be saved?');
  await page.locator('.save-piece .note', { hasText: 'Row 2' }).waitFor();

  await press(page, 'Make the trial: the hardest stretch');
  await page.getByText('This is the trial').waitFor();
  await page.locator('h1', { hasText: 'Trial, marks' }).waitFor();
  await page.locator('#saw-truth textarea').fill('0, 12\n300, 9\n600, 5\n');
  await press(page, 'What does it tell?');
  await page.locator('.trial-told').first().waitFor();
  await press(page, 'Back to the job itself');
  await page.getByRole('button', { name: 'Make the trial: the whole' }).waitFor();
});
