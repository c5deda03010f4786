/** The sound of a device, set by its person in the real pages, against the program itself. */
import type { Page } from 'playwright-core';
import { expect, it, onTestFinished } from 'vitest';
import { browserHouse } from '../kit/browserHouse.ts';
import { confirmSound, watchSound } from '../kit/chromium.ts';
import { outsideClient } from '../kit/client.ts';
import { heardOn, tapSound } from '../kit/soundTap.ts';
import { tapperOnPage } from '../kit/tapperOnPage.ts';

/** Silenced so soon after a stop, by the issue. */
const SILENT_MS = 20;

const shop = browserHouse();

async function house() {
  // Only so that a test can listen at the output; everything else is as the pages are served.
  const context = await shop.browser.newContext({ bypassCSP: true });
  onTestFinished(() => context.close());
  context.setDefaultTimeout(30_000);
  const outside = outsideClient(shop.program.url);
  const { run } = await outside.makeDemoRun();
  const page = async (path: string, before?: (page: Page) => Promise<void>): Promise<Page> => {
    const opened = await context.newPage();
    await before?.(opened);
    await opened.goto(`${shop.program.url}/${path}?run=${run}`);
    return opened;
  };
  return { ...outside, run, context, page };
}

const openPanel = (page: Page): Promise<void> => page.getByRole('button', { name: 'Sound here' }).click();
const done = (page: Page): Promise<void> => page.getByRole('button', { name: 'Done' }).click();
const lateOn = async (page: Page): Promise<number> =>
  Number.parseInt((await page.locator('.late').textContent()) ?? '', 10);
const stateIs = (page: Page, state: string): Promise<void> => page.locator(`[data-state="${state}"]`).waitFor();

it('measures a headset by taps, starts the calls that much earlier, says so, and keeps it with the device', async () => {
  const here = await house();
  const lateMs = 180;
  const wheel = await here.page('wheel', (opened) => tapperOnPage(opened, { lateMs, clickS: 0.04 }));
  await confirmSound(wheel);
  const told = async (): Promise<number[]> =>
    (await here.journal(here.run)).filter(({ kind }) => kind === 'heard-after').map(({ delayMs }) => Number(delayMs));
  await openPanel(wheel);
  await wheel.getByText('Wireless').click();
  await wheel.getByText('Assumed: measure it').waitFor();
  await wheel.getByText('A wire is better').waitFor();
  await wheel.getByRole('button', { name: 'Measure it' }).click();
  await wheel.getByRole('button', { name: 'Begin' }).click();
  await wheel.getByRole('button', { name: 'Now by eye' }).click({ timeout: 30_000 });
  await wheel.getByText('give or take').waitFor({ timeout: 30_000 });

  const kept = await wheel.evaluate(() => JSON.parse(localStorage.getItem('by-the-mark.ear.wireless') ?? 'null'));
  expect(kept.measured.extraMs).toBeGreaterThan(lateMs - 40);
  expect(kept.measured.extraMs).toBeLessThan(lateMs + 40);
  const shownMs = await lateOn(wheel);
  // Beside it what the browser itself knows of, some tens of milliseconds.
  expect(shownMs).toBeGreaterThanOrEqual(kept.measured.extraMs - 5);
  expect(shownMs).toBeLessThan(kept.measured.extraMs + 120);
  await expect.poll(async () => Math.abs(((await told()).at(-1) ?? 0) - shownMs)).toBeLessThanOrEqual(10);

  await wheel.reload();
  await openPanel(wheel);
  await wheel.getByText('give or take').waitFor();
  await wheel.getByText('Wired').click();
  await expect.poll(() => lateOn(wheel)).toBeLessThan(120);
});

it('lets each headset choose: one that hears only stops is left alone until one comes', async () => {
  const here = await house();
  let sounds: () => Promise<{ lengthS: number }[]> = () => Promise.resolve([]);
  const wheel = await here.page('wheel', async (opened) => {
    sounds = await watchSound(opened);
  });
  await confirmSound(wheel);
  await openPanel(wheel);
  await wheel.getByText('Stops only').click();
  await wheel.getByText('No bevel is said here').waitFor();
  await done(wheel);
  const sawyer = await here.page('sawyer');
  await sawyer.getByText('Wheel display, stops only').waitFor();
  await sawyer.getByText('Nobody hears the bevels').waitFor();
  await here.post(`/api/runs/${here.run}/start`);
  await stateIs(wheel, 'feeding');
  await wheel.waitForTimeout(400);
  expect(await sounds()).toHaveLength(1);
  await here.post(`/api/runs/${here.run}/stop-feed`);
  await expect.poll(async () => (await sounds()).length).toBe(2);
  const lines = await here.journal(here.run);
  expect(lines.filter(({ kind }) => kind === 'unplayed')).toEqual([]);
  // Kept with the device.
  await wheel.reload();
  await openPanel(wheel);
  expect(await wheel.getByRole('radio', { name: 'Stops only' }).isChecked()).toBe(true);
});

it('says which words the server has no sound for, and goes on once it has', async () => {
  const here = await house();
  let isThere = false;
  const wheel = await here.page('wheel', async (opened) => {
    let first: string | undefined;
    await opened.route('**/api/clips/*.wav', (route) => {
      first ??= route.request().url();
      const isFirst = route.request().url() === first;
      return isFirst && !isThere ? route.fulfill({ status: 404, body: '{}' }) : route.continue();
    });
  });
  await wheel.getByText('The server has no sound for').waitFor();
  isThere = true;
  await wheel.getByRole('button', { name: 'Play the test words' }).waitFor();
});

it('sounds the cues in the gaps when they are wanted, and marks to a sawyer who asked for them', async () => {
  const here = await house();
  let atWheel: () => Promise<{ lengthS: number }[]> = () => Promise.resolve([]);
  let atSawyer: () => Promise<{ lengthS: number }[]> = () => Promise.resolve([]);
  const wheel = await here.page('wheel', async (opened) => {
    atWheel = await watchSound(opened);
  });
  await confirmSound(wheel);
  await openPanel(wheel);
  await wheel.getByText('Tones in the gaps').click();
  await done(wheel);
  const sawyer = await here.page('sawyer', async (opened) => {
    atSawyer = await watchSound(opened);
  });
  await sawyer.getByRole('button', { name: 'Use this device' }).click();
  await sawyer.getByRole('button', { name: 'Play the test words', exact: true }).click();
  await sawyer.getByRole('button', { name: 'I heard it' }).click();
  await sawyer.getByText('Sawyer\u2019s loudspeaker, everything: sound confirmed').waitFor();
  await openPanel(sawyer);
  await sawyer.getByText('Stops and marks').click();
  await done(sawyer);
  const cues = async (of: typeof atWheel, lengthS: number): Promise<number> =>
    (await of()).filter((sound) => Math.abs(sound.lengthS - lengthS) < 0.002).length;
  await here.post(`/api/runs/${here.run}/start`);
  await stateIs(wheel, 'feeding');
  await wheel.waitForTimeout(300);
  const feed = await here.socket(`/feed?run=${here.run}`);
  onTestFinished(() => feed.close());
  feed.send({ kind: 'pedal' });
  await expect.poll(() => cues(atSawyer, 0.55), { timeout: 30_000 }).toBe(1);
  // The demo's bevels begin by growing: after the words, "more" or, one mark later, another way.
  await expect.poll(() => cues(atWheel, 0.58), { timeout: 30_000 }).toBe(1);
  expect(await cues(atWheel, 0.55)).toBe(0);
});

it('silences the words within 20 ms of the server’s word, to the last sample, in the real page', async () => {
  const here = await house();
  await tapSound(here.context);
  const wheel = await here.page('wheel', async (opened) => {
    await opened.addInitScript(() => {
      const Real = WebSocket;
      class Watched extends Real {
        constructor(...parts: ConstructorParameters<typeof WebSocket>) {
          super(...parts);
          this.addEventListener('message', ({ data }) => {
            const { soundTap } = window as unknown as { soundTap: { context: AudioContext } };
            if (String(data).includes('"cancel"'))
              Object.assign(window, { cancelledAtS: soundTap.context.currentTime });
          });
        }
      }
      Object.assign(window, { WebSocket: Watched });
    });
  });
  await confirmSound(wheel);
  await wheel.waitForTimeout(3000);
  await here.post(`/api/runs/${here.run}/start`);
  await expect.poll(async () => (await heardOn(wheel)).stretches.length).toBeGreaterThanOrEqual(2);
  await here.post(`/api/runs/${here.run}/finish`);
  await wheel.waitForTimeout(1500);
  const atS = await wheel.evaluate(() => (window as unknown as { cancelledAtS: number }).cancelledAtS);
  const { rateHz, stretches } = await heardOn(wheel);
  expect(atS).toBeGreaterThan(0);
  const sounding = stretches.filter(({ fromFrame }) => fromFrame / rateHz <= atS);
  const quiet = (sounding.at(-1)?.toFrame ?? 0) / rateHz - atS;
  expect(quiet).toBeLessThanOrEqual(SILENT_MS / 1000);
});

it('keeps the level, tells what a run does to an ear, and gets out of the way when the run starts', async () => {
  const here = await house();
  const wheel = await here.page('wheel');
  await confirmSound(wheel);
  await openPanel(wheel);
  const verdict = (word: string): Promise<void> => wheel.locator(`[data-verdict="${word}"]`).waitFor();
  for (let i = 0; i < 4; i++) await wheel.getByRole('button', { name: 'Quieter' }).click();
  await wheel.getByRole('button', { name: 'Only just understood' }).click();
  for (let i = 0; i < 2; i++) await wheel.getByRole('button', { name: 'Louder' }).click();
  await wheel.getByText('6 dB over what is only just understood').waitFor();
  const noise = wheel.getByLabel('Where you stand, dBA');
  await noise.fill('84');
  await noise.press('Tab');
  await verdict('fine');
  await noise.fill('112');
  await noise.press('Tab');
  await verdict('too loud');
  await wheel.getByText('Wear ear protection').waitFor();
  await wheel.getByLabel('Ear protection, NRR').fill('33');
  await wheel.getByLabel('Ear protection, NRR').press('Tab');
  await wheel.locator('[data-verdict]:not([data-verdict="too loud"])').waitFor();
  await here.post(`/api/runs/${here.run}/start`);
  await wheel.locator('dialog.hearing').waitFor({ state: 'detached' });
  await here.post(`/api/runs/${here.run}/stop-feed`);
  await wheel.reload();
  await openPanel(wheel);
  await wheel.getByRole('img', { name: 'Level 7 of 9' }).waitFor();
  expect(await noise.inputValue()).toBe('112');
});
