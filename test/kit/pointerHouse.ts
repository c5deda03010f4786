import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Plan } from '../../server/core/plan/plan.ts';
import { tiltAt } from '../../server/core/run/engine/profile.ts';
import { makeSetup } from '../../server/core/run/makeSetup.ts';
import { shownDeg } from '../../server/core/saw/readout.ts';
import { openChromium } from './chromium.ts';
import { outsideClient } from './client.ts';
import { jitterProxy } from './jitterProxy.ts';
import { outsideFeed } from './outsideFeed.ts';
import { startProgram } from './program.ts';
import { watchPointer } from './watchPointer.ts';

/** The program, wood outside it whose place is known, and a wheel display behind a line that jitters. */
export async function pointerHouse(asked: {
  readonly mPerMin: number;
  readonly jitterMs: number;
  readonly viewport: { readonly width: number; readonly height: number };
  /** Given what ends each part, the last begun first. */
  readonly atEnd: (end: () => Promise<void> | void) => void;
}) {
  const { mPerMin, jitterMs, viewport, atEnd } = asked;
  const dataDir = mkdtempSync(join(tmpdir(), 'by-the-mark-'));
  atEnd(() => rmSync(dataDir, { recursive: true, force: true }));
  const program = await startProgram(dataDir);
  atEnd(() => program.end('SIGKILL'));
  const { port } = new URL(program.url);
  const proxy = await jitterProxy(Number(port), jitterMs, Math.random);
  atEnd(() => proxy.close());
  const browser = await openChromium({ more: [`--host-resolver-rules=MAP localhost:${port} 127.0.0.1:${proxy.port}`] });
  atEnd(() => browser.close());
  const outside = outsideClient(program.url);
  const { run } = await outside.makeDemoRun('pair', { kind: 'external' }, 'following');
  const plan: Plan = (await outside.get(`/api/runs/${run}/plan`)).json;
  const page = await browser.newPage({ viewport });
  page.setDefaultTimeout(30_000);
  const seen = await watchPointer(page);
  await page.goto(`http://localhost:${port}/wheel?run=${run}&sound=off`);
  await page.locator('[data-state="ready"]').waitFor();
  const feedSocket = await outside.socket(`/feed?run=${run}`);
  await outside.post(`/api/runs/${run}/start`);
  const feed = outsideFeed({ mPerMin, seed: 7 }, feedSocket.send);
  atEnd(() => {
    feed.end();
    feedSocket.close();
  });
  await page.locator('.chalk').waitFor();
  // The speed and the clocks have been told for a while.
  await page.waitForTimeout(1500);
  await seen();
  const setup = makeSetup(plan, 'pair', {}, 'following');
  const shown = (tiltDeg: number): number => shownDeg(tiltDeg, plan.saw.readoutTable);
  return {
    ...outside,
    run,
    page,
    seen,
    feed,
    feedSocket,
    shown,
    /** What the readout had to show then, by where the wood was. */
    wantedDeg: (atMs: number): number => shown(tiltAt(setup, feed.truthMm(atMs))),
  };
}
