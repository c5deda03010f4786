/** The papers from the pages, in a real browser, against the program itself. */
import { readFile } from 'node:fs/promises';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it, onTestFinished } from 'vitest';
import { loadDemo } from '../../server/demo/loadDemo.ts';
import { openChromium } from '../kit/chromium.ts';
import { outsideClient } from '../kit/client.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { startProgram } from '../kit/program.ts';
import { readPages } from '../paper/printed.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

/** What the browser saves when this is clicked: its name, and the words of its pages. */
async function saved(page: Page, role: 'button' | 'link', name: string) {
  const coming = page.waitForEvent('download', { timeout: 30_000 });
  await page.getByRole(role, { name, exact: true }).click();
  const file = await coming;
  const pages = await readPages(await readFile(await file.path()));
  return { name: file.suggestedFilename(), text: pages.map(({ text }) => text).join(' '), pages };
}

it('the start page gives every paper of the plan, a run its own, the record page the record', async () => {
  const program = await startProgram(freeDataDir());
  onTestFinished(() => program.end('SIGKILL'));
  const page = await browser.newPage();
  onTestFinished(() => page.close());
  page.setDefaultTimeout(30_000);
  await page.goto(program.url);
  await page.locator('.paper').waitFor();
  const strip = await saved(page, 'button', 'Mark strip');
  expect(strip).toMatchObject({ name: 'strip.pdf', text: expect.stringContaining('HEAD LEADS') });
  await page.locator('.paper select').first().selectOption('roll62');
  expect((await saved(page, 'button', 'Mark strip')).pages[0]?.widthMm).toBeCloseTo(62, 1);
  const names = {
    'Schedule and cards': 'Schedule',
    'Which way round': 'HEAD FIRST',
    'Bevel board': 'Bevel board',
    'Test cuts': 'Test cuts',
  };
  for (const [button, wanted] of Object.entries(names))
    expect((await saved(page, 'button', button)).text).toContain(wanted);

  const { job, files } = await loadDemo();
  const { json } = await outsideClient(program.url).post('/api/runs', {
    job,
    files,
    mode: 'pair',
    feed: { kind: 'external' },
  });
  await page.goto(`${program.url}/codes?run=${json.run}`);
  expect((await saved(page, 'link', 'Mark strip (PDF)')).text).toContain('HEAD LEADS');
  await page.goto(`${program.url}/record?run=${json.run}`);
  expect((await saved(page, 'link', 'Record (PDF)')).text).toContain(json.run);
  // Eight PDFs and a voice: a machine that is busy with other tests is waited for.
}, 180_000);
