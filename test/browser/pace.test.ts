/** The pace on the start page, in a real browser, against the program itself. */
import { readFileSync } from 'node:fs';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it, onTestFinished } from 'vitest';
import { openChromium } from '../kit/chromium.ts';
import { outsideClient } from '../kit/client.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { startProgram } from '../kit/program.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

const demoFile = (name: string): Buffer => readFileSync(new URL(`../../server/demo/${name}`, import.meta.url));

it('shows the fastest feed of each routine from mark to mark, and what helps a crew that feeds faster', async () => {
  const program = await startProgram(freeDataDir());
  onTestFinished(() => program.end('SIGKILL'));
  const page = await browser.newPage();
  onTestFinished(() => page.close());
  page.setDefaultTimeout(30_000);
  await page.goto(program.url);
  const pace = page.locator('.pace');
  await pace.waitFor();
  expect(await pace.locator('.pace-help').count()).toBe(0);

  const job = JSON.parse(demoFile('job.json').toString());
  job.crew.feedMPerMin = 5;
  await page
    .locator('input[type=file]')
    .setInputFiles([
      { name: 'job.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(job)) },
      ...['pickup.csv', 'pattern.csv'].map((name) => ({ name, mimeType: 'text/csv', buffer: demoFile(name) })),
    ]);
  await pace.locator('.pace-help', { hasText: 'at 5 m/min is too fast' }).waitFor();
  const files = Object.fromEntries(['pickup.csv', 'pattern.csv'].map((name) => [name, demoFile(name).toString()]));
  const { json: plan } = await outsideClient(program.url).post('/api/plan', { job, files });
  const suggestions = await pace.locator('.pace-help li').allTextContents();
  expect(suggestions).toHaveLength(plan.pace.suggestions.length);
  expect(suggestions[0]).toMatch(/^Slow to 3\.\d+ m\/min between marks \d+ and \d+/);

  const slow = () => pace.locator('.pace-slow').count();
  const tooSlow = (routine: string): number =>
    plan.pace.routines[routine].intervals.filter(({ limitMPerMin }: { limitMPerMin: number }) => limitMPerMin < 5)
      .length;
  expect(await slow()).toBe(tooSlow('mark by mark'));
  await pace.getByRole('button', { name: 'Even turning' }).click();
  await expect.poll(slow).toBe(tooSlow('even turning'));
});
