import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, onTestFinished } from 'vitest';
import { openChromium } from './chromium.ts';
import { outsideClient } from './client.ts';
import { freeDataDir } from './freeDataDir.ts';
import { startProgram } from './program.ts';
import { squareAtZero } from './squareAtZero.ts';

/** One browser for all tests of a file; each of them may open programs of its own, and pages of theirs. */
export function pagesHouse() {
  let browser: Browser;
  beforeAll(async () => {
    browser = await openChromium();
  });
  afterAll(() => browser.close());

  return async () => {
    const dataDir = freeDataDir();
    const program = await startProgram(dataDir);
    const running = { program };
    onTestFinished(() => running.program.end('SIGKILL'));
    const context = await browser.newContext();
    onTestFinished(() => context.close());
    context.setDefaultTimeout(30_000);
    const page = async (path: string, before?: (page: Page) => Promise<void>): Promise<Page> => {
      const opened = await context.newPage();
      await before?.(opened);
      await opened.goto(program.url + path);
      return opened;
    };
    return { ...outsideClient(program.url), url: program.url, dataDir, running, page };
  };
}

export const start = async (sawyer: Page): Promise<void> => {
  await squareAtZero(sawyer);
  await sawyer.locator('button.next').click();
};
/** Where no listener has joined, the page asks first. */
export const startUnheard = async (sawyer: Page): Promise<void> => {
  await start(sawyer);
  await heard(sawyer, 'Nobody will hear the calls');
  await stateIs(sawyer, 'ready');
  await sawyer.getByRole('button', { name: 'Start without sound' }).click();
};
export const heard = (sawyer: Page, text: string): Promise<void> =>
  sawyer.locator('.heard', { hasText: text }).waitFor();
export const stateIs = (page: Page, state: string): Promise<void> => page.locator(`[data-state="${state}"]`).waitFor();
