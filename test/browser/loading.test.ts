/** A page of which a part does not come through a bad line says so and what to do; nobody stands before an empty screen. */
import { readdirSync, readFileSync } from 'node:fs';
import { expect, it, onTestFinished } from 'vitest';
import { browserHouse } from '../kit/browserHouse.ts';

const WORDS = 'Loading. If this stays, load the page again.';

const shop = browserHouse();

it.each(['', 'wheel'])('/%s', async (path) => {
  const page = await shop.browser.newPage();
  onTestFinished(() => page.close());
  page.setDefaultTimeout(30_000);
  const loading = page.getByText(WORDS);
  let isBad = true;
  let asked = 0;
  await page.route('**/assets/*.js', (route) => (isBad && asked++ > 0 ? route.abort() : route.continue()));
  await page.goto(`${shop.program.url}/${path}`);
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
