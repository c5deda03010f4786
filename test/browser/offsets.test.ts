/** A frame from offsets on the start page: planned, drawn, a slip of the pen told with its cell, a picked-up frame beside it. */
import { readFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it, onTestFinished } from 'vitest';
import { openChromium } from '../kit/chromium.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { startProgram } from '../kit/program.ts';

const demo = (name: string): string => readFileSync(new URL(`../../server/demo/${name}`, import.meta.url), 'utf8');

let browser: Browser;
beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

async function startPage(): Promise<Page> {
  const program = await startProgram(freeDataDir());
  onTestFinished(() => program.end('SIGKILL'));
  const context = await browser.newContext();
  onTestFinished(() => context.close());
  const page = await context.newPage();
  page.setDefaultTimeout(30_000);
  await page.goto(program.url);
  return page;
}
const drop = (page: Page, files: Readonly<Record<string, string>>): Promise<void> =>
  page
    .getByLabel('Job file and tables')
    .setInputFiles(
      Object.entries(files).map(([name, text]) => ({ name, mimeType: 'text/plain', buffer: Buffer.from(text) })),
    );

it('offers one, draws its edge smooth and says what the table tells', async () => {
  const page = await startPage();
  await page.getByRole('button', { name: 'frame 9 from its offsets' }).click();
  const sheet = page.locator('.offsets-sheet');
  await sheet.waitFor();
  const words = ((await sheet.textContent()) ?? '').replace(/\s+/g, ' ');
  expect(words).toContain('16 mm of planking is deducted');
  expect(words).toMatch(/Fairing moved \d+ points/);
  expect(words).toContain('A plain stack without wedges');
  await sheet.getByRole('img', { name: /A plain stack runs \d+ mm aft by the head/ }).waitFor();
  // The edge has two hundred points and not only the marks.
  const edge = await page.getByRole('img', { name: 'Shape of the frame' }).locator('.loft-curve').getAttribute('d');
  expect(edge?.split('L').length).toBeGreaterThan(150);
  expect(await page.locator('.legend').first().textContent()).toContain('bevel as sawn, from the offsets');
  expect(await page.locator('.facts').first().textContent()).not.toContain('picked-up bevels');
});

it('tells a slip of the pen with its cell and what would be fair', async () => {
  const page = await startPage();
  const lines = demo('offsets.csv').split('\n');
  const index = lines.findIndex((line) => line.startsWith('5,')) + 7;
  const [station = '', x = '', y = '', z = ''] = (lines[index] ?? '').split(',');
  const wrong = `${Number(y) + (Number(y) % 1000 < 700 ? 200 : -200)}`;
  lines[index] = [station, x, wrong, z].join(',');
  await drop(page, { 'job.json': demo('offsets-job.json'), 'offsets.csv': lines.join('\n') });
  await page.getByText(`"${wrong}" on station 5`).waitFor();
  await page.getByText('which would be fair').waitFor();
});

it('lays a picked-up frame beside the offsets', async () => {
  const page = await startPage();
  const job = JSON.parse(demo('offsets-job.json'));
  const picked = { ...job, shape: { ...job.shape, pickup: 'pickup.csv' } };
  await drop(page, {
    'job.json': JSON.stringify(picked),
    'offsets.csv': demo('offsets.csv'),
    'pickup.csv': 'girth,bevel\n0,3.5\n300,6.5\n600,9.5\n750,11\n900,10.5\n1200,9.5\n1540,8.5\n',
  });
  await page.getByRole('heading', { name: 'Beside the offsets' }).waitFor();
  expect(await page.locator('.against tbody tr').count()).toBe(7);
  await page.locator('.loft-offsets').first().waitFor();
  expect(await page.locator('.legend').first().textContent()).toContain('of the offsets');
});
