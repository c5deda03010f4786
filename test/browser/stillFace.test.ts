/** The face of the wheel display keeps its place through a whole run: an eye that comes back to it finds everything where it was. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { openChromium } from '../kit/chromium.ts';
import { outsideClient } from '../kit/client.ts';
import { outsideFeed } from '../kit/outsideFeed.ts';
import { startProgram } from '../kit/program.ts';

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

/** Each place that the face had at any frame since it was watched, and what the foot shows that does not fit into it. */
const watchFace = (page: Page): Promise<void> =>
  page.evaluate(() => {
    const seen = { places: new Set<string>(), cut: new Set<string>() };
    Object.assign(window, { faceSeen: seen });
    requestAnimationFrame(function look() {
      const state = document.querySelector('[data-state]')?.getAttribute('data-state');
      // Once it is lost, other things are to be seen.
      if (state === 'lost') return;
      requestAnimationFrame(look);
      const rect = document.querySelector('.face')?.getBoundingClientRect();
      seen.places.add([rect?.x, rect?.y, rect?.width, rect?.height].join(' '));
      for (const bar of document.querySelectorAll('.state-bar, .foot')) {
        const within = bar.getBoundingClientRect();
        for (const part of bar.children) {
          const { top, bottom, left, right, width } = part.getBoundingClientRect();
          const isIn =
            top >= within.top - 0.5 &&
            bottom <= within.bottom + 0.5 &&
            left >= within.left - 0.5 &&
            right <= within.right + 0.5;
          if (width > 0 && !isIn) seen.cut.add(`${state}: ${part.textContent}`);
        }
      }
    });
  });
const faceSeen = (page: Page): Promise<{ places: string[]; cut: string[] }> =>
  page.evaluate(() => {
    const { places, cut } = (window as unknown as { faceSeen: { places: Set<string>; cut: Set<string> } }).faceSeen;
    return { places: [...places], cut: [...cut] };
  });

const SCREENS = [
  ['a tablet of 10 inches', 1280, 800],
  ['the same on end', 800, 1280],
  ['a large screen', 1920, 1080],
  ['a telephone on its side', 844, 390],
  ['a telephone', 390, 844],
] as const;

describe.each(['following', 'mark by mark'] as const)('%s', (routine) => {
  it('keeps its place on every screen: feeding too fast, stopped, moved while stopped, fed again', async () => {
    const outside = outsideClient(program.url);
    const { run } = await outside.makeDemoRun('pair', { kind: 'external' }, routine);
    const pages = await Promise.all(
      SCREENS.map(async ([what, width, height]) => {
        const context = await browser.newContext({ viewport: { width, height } });
        onTestFinished(() => context.close());
        const page = await context.newPage();
        await page.goto(`${program.url}/wheel?run=${run}&sound=off`);
        await page.locator('[data-state="ready"]').waitFor();
        await page.evaluate(() => document.fonts.ready);
        return { what, page };
      }),
    );
    const shows = (state: string) =>
      Promise.all(pages.map(({ page }) => page.locator(`[data-state="${state}"]`).waitFor()));
    const rest = (ms: number) => new Promise((settle) => setTimeout(settle, ms));
    const feedSocket = await outside.socket(`/feed?run=${run}`);
    await outside.post(`/api/runs/${run}/start`);
    const feed = outsideFeed({ mPerMin: 6, seed: 7 }, feedSocket.send);
    onTestFinished(() => {
      feed.end();
      feedSocket.close();
    });
    // Until the wheel counts, the first bevel stands there in place of the line that is followed.
    const board = routine === 'following' ? '.chalk' : '[data-state="feeding"]';
    await Promise.all(pages.map(({ page }) => page.locator(board).waitFor()));
    await Promise.all(pages.map(({ page }) => watchFace(page)));
    await rest(4000);
    await outside.post(`/api/runs/${run}/stop-feed`);
    await shows('stopped');
    await rest(1000);
    await outside.post(`/api/runs/${run}/resume`);
    await shows('feeding');
    await rest(1000);
    const seen = await Promise.all(pages.map(async ({ what, page }) => ({ what, ...(await faceSeen(page)) })));
    expect(seen).toEqual(pages.map(({ what }) => ({ what, places: [expect.any(String)], cut: [] })));
  });
});
