import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { confirmSound, openChromium, watchSound } from '../kit/chromium.ts';
import { outsideClient } from '../kit/client.ts';
import { DOOR, startProgram } from '../kit/program.ts';
import { squareAtZero } from '../kit/squareAtZero.ts';
import { spread } from './spread.ts';
import { synthesiserPerCall } from './synthesiserPerCall.ts';

const RUNS = 10;

interface Times {
  readonly shown: number[];
  readonly given: number[];
  readonly sounding: number[];
  readonly texts: string[];
}

/**
 * From a key of the pedal going down on the sawyer page to the wheel display (another page of the same Chromium) showing the
 * next bevel, and to its clip being started in the audio graph; headless, so the sound card's own latency is not in it.
 */
export async function pedalToSound(): Promise<void> {
  const dataDir = mkdtempSync(join(tmpdir(), 'by-the-mark-bench-'));
  const program = await startProgram(dataDir, [], DOOR);
  const browser = await openChromium();
  const times: Times = { shown: [], given: [], sounding: [], texts: [] };
  try {
    for (let run = 0; run < RUNS; run += 1) await oneRun(browser, program.url, times);
    console.log(spread('key down -> next bevel on the wheel display', times.shown));
    console.log(spread('key down -> clip given to the audio graph', times.given));
    console.log(spread('key down -> first sample due on the audio clock', times.sounding));
    const onDemand: number[] = [];
    for (const text of times.texts.slice(0, 20)) onDemand.push(await synthesiserPerCall(text));
    console.log(spread('the same, a synthesiser started per call (to first sample)', onDemand));
  } finally {
    await browser.close();
    await program.end();
    rmSync(dataDir, { recursive: true, force: true });
  }
}

async function oneRun(browser: Browser, url: string, times: Times): Promise<void> {
  const outside = outsideClient(url);
  const { run, plan } = await outside.makeDemoRun();
  const context = await browser.newContext();
  const wheel = await context.newPage();
  const sounds = await watchSound(wheel);
  await watchFigures(wheel);
  await wheel.goto(`${url}/wheel?run=${run}`);
  await confirmSound(wheel);
  const sawyer = await context.newPage();
  await watchKeys(sawyer);
  await sawyer.goto(`${url}/sawyer?run=${run}`);
  await squareAtZero(sawyer);
  await sawyer.getByRole('button', { name: /^\s*Start/ }).click();
  await sawyer.getByText('Feeding').first().waitFor();
  await sawyer.waitForTimeout(1500);
  const before = (await sounds()).length;
  for (let press = 0; press < plan.marks.length - 1; press += 1) {
    await sawyer.keyboard.press('Space');
    await sawyer.waitForTimeout(350);
  }
  const keys = await sawyer.evaluate(() => (window as unknown as { keys: number[] }).keys);
  const figures = await wheel.evaluate(() => (window as unknown as { figures: number[] }).figures);
  const started = (await sounds()).slice(before);
  for (const keyMs of keys) {
    const shownMs = figures.find((atMs) => atMs >= keyMs);
    const sound = started.find(({ atMs }) => atMs >= keyMs);
    if (shownMs !== undefined) times.shown.push(shownMs - keyMs);
    if (sound === undefined) continue;
    times.given.push(sound.atMs - keyMs);
    times.sounding.push(sound.atMs - keyMs + 1000 * (sound.startS - sound.nowS));
  }
  const lines = await outside.journal(run);
  times.texts.push(
    ...lines.flatMap((line) => (line.kind === 'called' && line.mark !== undefined ? [String(line.text)] : [])),
  );
  await context.close();
}

/** Notes when the big figure changes. */
async function watchFigures(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const figures: number[] = [];
    Object.assign(window, { figures });
    let last: string | undefined;
    new MutationObserver(() => {
      const text = document.querySelector('[data-target]')?.textContent ?? undefined;
      if (text !== last) figures.push(performance.timeOrigin + performance.now());
      last = text;
    }).observe(document, { subtree: true, childList: true, characterData: true });
  });
}

async function watchKeys(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const keys: number[] = [];
    Object.assign(window, { keys });
    addEventListener(
      'keydown',
      (event) => {
        if (event.code === 'Space') keys.push(performance.timeOrigin + event.timeStamp);
      },
      true,
    );
  });
}
