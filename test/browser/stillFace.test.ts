/**
 * Both pages at the saw, on every screen and in every state: nothing that matters is cut off, covered or crossed, and what is looked
 * at and pressed keeps its place, so that an eye or a finger that comes back finds it where it was.
 */
import type { Page } from 'playwright-core';
import { describe, expect, it, onTestFinished } from 'vitest';
import { browserHouse } from '../kit/browserHouse.ts';
import { outsideClient } from '../kit/client.ts';
import { faultsOnPage, placesOnPage } from '../kit/faultsOnPage.ts';
import { outsideFeed } from '../kit/outsideFeed.ts';
import { squareAtZero } from '../kit/squareAtZero.ts';

const shop = browserHouse();

const SCREENS = [
  ['a small telephone', 320, 568],
  ['a telephone', 360, 740],
  ['a telephone on its side', 740, 360],
  ['a tablet on end', 768, 1024],
  ['the same on its side', 1024, 768],
  ['a tablet of 10 inches', 1280, 800],
  ['a large screen', 1920, 1080],
] as const;
/** The board that the routine is turned by. */
const BOARDS = {
  following: '.chalk',
  'mark by mark': '.bearing',
  'degree by degree': '.bearing',
  'even turning': '.bearing',
} as const;

/** What is still wrong at a second look: a page that is just being drawn anew for another screen is not judged. */
async function lastingFaults(page: Page): Promise<readonly string[]> {
  const first = await faultsOnPage(page);
  if (first.length === 0) return [];
  await page.waitForTimeout(300);
  const second = await faultsOnPage(page);
  return first.filter((fault) => second.includes(fault));
}

describe.each([
  ['pair', 'following'],
  ['pair', 'mark by mark'],
  ['solo', 'degree by degree'],
  ['rehearsal', 'even turning'],
  ['rehearsal', 'following'],
] as const)('%s, %s', (mode, routine) => {
  it('shows both pages whole and still on every screen: ready, fed too fast, stopped, fed again, lost, finished', async () => {
    const outside = outsideClient(shop.program.url);
    const { run } = await outside.makeDemoRun(mode, { kind: 'external' }, routine);
    const open = async (path: string): Promise<Page> => {
      const page = await shop.browser.newPage();
      onTestFinished(() => page.close());
      await page.goto(shop.program.url + path);
      await page.locator('[data-state="ready"]').waitFor();
      await page.evaluate(() => document.fonts.ready);
      return page;
    };
    const pages = { wheel: await open(`/wheel?run=${run}&sound=off`), sawyer: await open(`/sawyer?run=${run}`) };
    if (mode !== 'rehearsal') await squareAtZero(pages.sawyer);
    const places = new Map<string, Set<string>>();
    const faults: string[] = [];
    const lookOnEvery = async (when: string): Promise<void> => {
      for (const [name, page] of Object.entries(pages))
        for (const [screen, width, height] of SCREENS) {
          await page.setViewportSize({ width, height });
          const found = await lastingFaults(page);
          faults.push(...found.map((fault) => `${name}, ${screen}, ${when}: ${fault}`));
          // Before the start the wheel display has other things to ask.
          if (name === 'wheel' && when === 'ready') continue;
          for (const [part, place] of Object.entries(await placesOnPage(page))) {
            const key = `${name}, ${screen}: ${part}`;
            places.set(key, (places.get(key) ?? new Set()).add(place));
          }
        }
    };
    const state = (wanted: string) => pages.wheel.locator(`[data-state="${wanted}"]`).waitFor();

    await lookOnEvery('ready');
    const feedSocket = await outside.socket(`/feed?run=${run}`);
    await outside.post(`/api/runs/${run}/start`);
    const feed = outsideFeed({ mPerMin: 6, seed: 7 }, feedSocket.send);
    onTestFinished(() => {
      feed.end();
      feedSocket.close();
    });
    // Until the wheel counts, the first bevel stands there in place of the line that is followed.
    await pages.wheel.locator(BOARDS[routine]).waitFor();
    await lookOnEvery('fed');
    feed.hold('by hand');
    await outside.post(`/api/runs/${run}/stop-feed`);
    await state('stopped');
    await lookOnEvery('stopped');
    await outside.post(`/api/runs/${run}/resume`);
    await state('feeding');
    await lookOnEvery('fed again');
    feed.end();
    feedSocket.close();
    await state('lost');
    await lookOnEvery('lost');
    await outside.post(`/api/runs/${run}/finish`);
    await state('finished');
    await lookOnEvery('finished');
    expect(faults).toEqual([]);
    const moved = [...places].filter(([, { size }]) => size > 1).map(([key, each]) => [key, ...each]);
    expect(moved).toEqual([]);
  });
});

it('asks whether a run is to end in the place of the row that asked, and moves nothing', async () => {
  const outside = outsideClient(shop.program.url);
  const { run } = await outside.makeDemoRun('rehearsal');
  const sawyer = await shop.browser.newPage();
  onTestFinished(() => sawyer.close());
  await sawyer.goto(`${shop.program.url}/sawyer?run=${run}`);
  await outside.post(`/api/runs/${run}/start`);
  await sawyer.locator('[data-state="feeding"]').waitFor();
  await sawyer.evaluate(() => document.fonts.ready);
  // Pressed as a finger that is there already: a robot's click scrolls the page when something lies over the button for a moment.
  const tap = (name: string): Promise<void> =>
    sawyer.getByRole('button', { name, exact: true }).evaluate((button: HTMLButtonElement) => button.click());
  for (const [, width, height] of SCREENS) {
    await sawyer.setViewportSize({ width, height });
    const before = await placesOnPage(sawyer);
    const finish = await sawyer.getByRole('button', { name: 'Finish early' }).boundingBox();
    await tap('Finish early');
    expect(await placesOnPage(sawyer)).toEqual(before);
    expect(await sawyer.getByRole('button', { name: 'No', exact: true }).boundingBox()).toEqual(finish);
    // A second tap in the same place takes the question back.
    await tap('No');
  }
  await sawyer.getByRole('button', { name: 'Finish early' }).click();
  await sawyer.getByRole('button', { name: 'Yes, end this run' }).click();
  await sawyer.locator('[data-state="finished"]').waitFor();
  await sawyer.getByText('No mark passed, ended before').waitFor();
});
