/** A page of which a part does not come through a bad line says so and what to do; nobody stands before an empty screen. */
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it, onTestFinished } from 'vitest';
import { openChromium } from '../kit/chromium.ts';
import { startProgram } from '../kit/program.ts';

const WORDS = 'Loading. If this stays, load the page again.';

let browser: Browser;
let program: Awaited<ReturnType<typeof startProgram>>;
const dataDir = mkdtempSync(join(tmpdir(), 'by-the-mark-'));
beforeAll(async () => {
  [browser, program] = await Promise.all([openChromium(), startProgram(dataDir)]);
});
afterAll(async () => {
  await Promise.all([browser.close(), program.end('SIGKILL')]);
  rmSync(dataDir, { recursive: true, force: true });
});

it.each(['', 'wheel'])('/%s', async (path) => {
  const page = await browser.newPage();
  onTestFinished(() => page.close());
  page.setDefaultTimeout(10_000);
  const loading = page.getByText(WORDS);
  let isBad = true;
  let asked = 0;
  await page.route('**/assets/*.js', (route) => (isBad && asked++ > 0 ? route.abort() : route.continue()));
  await page.goto(`${program.url}/${path}`);
  await loading.waitFor();
  isBad = false;
  await page.reload();
  await page.locator('#page h1').first().waitFor();
  expect(await loading.count()).toBe(0);
});

it('every page has the words in it', () => {
  const folder = new URL('../../client/', import.meta.url);
  const pages = readdirSync(folder).filter((name) => name.endsWith('.html'));
  expect(pages.length).toBeGreaterThan(6);
  for (const name of pages) expect(readFileSync(new URL(name, folder), 'utf8')).toContain(WORDS);
});
