/** What befalls a page that listens: its main thread stalls, its connection breaks, it is killed. */
import type { Page } from 'playwright-core';
import { confirmSound, openChromium } from './chromium.ts';
import { jitterProxy } from './jitterProxy.ts';

/** A wheel display that hears the run, on a line of its own, by the name that the server goes by. */
export async function openEar(url: string, run: string) {
  const { port } = new URL(url);
  const line = await jitterProxy(Number(port), 0, () => 0);
  const browser = await openChromium({ more: [`--host-resolver-rules=MAP localhost:${port} 127.0.0.1:${line.port}`] });
  const page = await browser.newPage();
  await answerLate(page);
  await page.goto(`http://localhost:${port}/wheel?run=${run}`);
  await confirmSound(page);
  return {
    page,
    line,
    async close(): Promise<void> {
      line.close();
      await browser.close();
    },
  };
}
export type Ear = Awaited<ReturnType<typeof openEar>>;

const STALL = '/stall/';

/** Requests for `/stall/MS` are answered after so long. */
async function answerLate(page: Page): Promise<void> {
  await page.route(`**${STALL}*`, async (route) => {
    const ms = Number(route.request().url().split(STALL)[1]);
    await new Promise((done) => setTimeout(done, ms));
    await route.fulfill({ body: '' });
  });
}

/**
 * The page's main thread does nothing for so long: it waits for an answer, and the machine's other pages go on. Gives how long it was
 * in truth: a busy machine lets it wait longer.
 */
export const stall = (page: Page, ms: number): Promise<number> =>
  page.evaluate(
    (address) => {
      const fromMs = performance.now();
      const asked = new XMLHttpRequest();
      asked.open('GET', address, false);
      asked.send();
      return performance.now() - fromMs;
    },
    `${STALL}${Math.round(ms)}`,
  );

/** The page's process ends as by a fault. */
export async function crash(page: Page): Promise<void> {
  const session = await page.context().newCDPSession(page);
  // It has nobody left to answer.
  void session.send('Page.crash').catch(() => {});
}
