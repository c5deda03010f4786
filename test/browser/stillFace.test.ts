/** The face of the wheel display keeps its place through a whole run: an eye that comes back to it finds everything where it was. */
import type { Page } from 'playwright-core';
import { describe, expect, it, onTestFinished } from 'vitest';
import { browserHouse } from '../kit/browserHouse.ts';
import { outsideClient } from '../kit/client.ts';
import { outsideFeed } from '../kit/outsideFeed.ts';

const shop = browserHouse();

interface Looked {
  /** Where the face is, null while another board stands there. */
  readonly place: string | null;
  /** What the bars above and below it show that does not fit into them. */
  readonly cut: readonly string[];
}

/** Looks once the page has been drawn at its size. */
const lookAt = (page: Page, board: string): Promise<Looked> =>
  page.evaluate(async (selector) => {
    for (let frame = 0; frame < 3; frame++) await new Promise(requestAnimationFrame);
    const cut: string[] = [];
    for (const bar of document.querySelectorAll('.state-bar, .foot')) {
      const within = bar.getBoundingClientRect();
      for (const part of bar.children) {
        const { top, bottom, left, right } = part.getBoundingClientRect();
        const isIn =
          top >= within.top - 0.5 &&
          bottom <= within.bottom + 0.5 &&
          left >= within.left - 0.5 &&
          right <= within.right + 0.5;
        if (!isIn) cut.push(part.textContent ?? '');
      }
    }
    const rect = document.querySelector('.face')?.getBoundingClientRect();
    const stands = document.querySelector(selector) !== null;
    return { place: stands ? [rect?.x, rect?.y, rect?.width, rect?.height].join(' ') : null, cut };
  }, board);

const SCREENS = [
  ['a tablet of 10 inches', 1280, 800],
  ['the same on end', 800, 1280],
  ['a large screen', 1920, 1080],
  ['a telephone on its side', 844, 390],
  ['a telephone', 390, 844],
] as const;
/** The board that the routine is turned by. */
const BOARDS = { following: '.chalk', 'mark by mark': '.bearing' } as const;

describe.each(['following', 'mark by mark'] as const)('%s', (routine) => {
  it('keeps its place on every screen: feeding too fast, stopped, moved while stopped, fed again', async () => {
    const outside = outsideClient(shop.program.url);
    const { run } = await outside.makeDemoRun('pair', { kind: 'external' }, routine);
    const page = await shop.browser.newPage();
    onTestFinished(() => page.close());
    await page.goto(`${shop.program.url}/wheel?run=${run}&sound=off`);
    await page.locator('[data-state="ready"]').waitFor();
    await page.evaluate(() => document.fonts.ready);
    const feedSocket = await outside.socket(`/feed?run=${run}`);
    await outside.post(`/api/runs/${run}/start`);
    const feed = outsideFeed({ mPerMin: 6, seed: 7 }, feedSocket.send);
    onTestFinished(() => {
      feed.end();
      feedSocket.close();
    });
    const places = new Map<string, Set<string>>(SCREENS.map(([what]) => [what, new Set()]));
    const cut: string[] = [];
    const lookOnEvery = async (when: string): Promise<void> => {
      for (const [what, width, height] of SCREENS) {
        await page.setViewportSize({ width, height });
        const looked = await lookAt(page, BOARDS[routine]);
        if (looked.place !== null) places.get(what)?.add(looked.place);
        cut.push(...looked.cut.map((text) => `${what}, ${when}: ${text}`));
      }
    };
    // Until the wheel counts, the first bevel stands there in place of the line that is followed.
    await page.locator(BOARDS[routine]).waitFor();
    for (let look = 0; look < 3; look++) await lookOnEvery('fed');
    await outside.post(`/api/runs/${run}/stop-feed`);
    await page.locator('[data-state="stopped"]').waitFor();
    for (let look = 0; look < 2; look++) await lookOnEvery('stopped');
    await outside.post(`/api/runs/${run}/resume`);
    await page.locator('[data-state="feeding"]').waitFor();
    await lookOnEvery('fed again');
    expect(cut).toEqual([]);
    expect([...places].map(([what, { size }]) => [what, size])).toEqual(SCREENS.map(([what]) => [what, 1]));
  });
});
