/** The real pages in a real browser against the program itself. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it, onTestFinished } from 'vitest';
import { markCodeText, type StripOf } from '../../server/wire/message/markCode.ts';
import { confirmSound, openChromium, watchSound } from '../kit/chromium.ts';
import { outsideClient } from '../kit/client.ts';
import { EARNED_MS } from '../kit/earned.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { startProgram } from '../kit/program.ts';
import { squareAtZero } from '../kit/squareAtZero.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await openChromium();
});
afterAll(() => browser.close());

async function house(args: readonly string[] = []) {
  const dataDir = freeDataDir();
  const program = await startProgram(dataDir, args);
  const running = { program };
  onTestFinished(() => running.program.end('SIGKILL'));
  const context = await browser.newContext();
  onTestFinished(() => context.close());
  context.setDefaultTimeout(8000);
  const page = async (path: string, before?: (page: Page) => Promise<void>): Promise<Page> => {
    const opened = await context.newPage();
    await before?.(opened);
    await opened.goto(program.url + path);
    return opened;
  };
  return { ...outsideClient(program.url), url: program.url, dataDir, running, page };
}

const start = async (sawyer: Page): Promise<void> => {
  await squareAtZero(sawyer);
  await sawyer.locator('button.next').click();
};
/** Where no listener has joined, the page asks first. */
const startUnheard = async (sawyer: Page): Promise<void> => {
  await start(sawyer);
  await heard(sawyer, 'Nobody will hear the calls');
  await stateIs(sawyer, 'ready');
  await sawyer.getByRole('button', { name: 'Start without sound' }).click();
};
const heard = (sawyer: Page, text: string): Promise<void> => sawyer.locator('.heard', { hasText: text }).waitFor();
const stateIs = (page: Page, state: string): Promise<void> => page.locator(`[data-state="${state}"]`).waitFor();

it('goes through a whole run by the keyboard pedal, every call given to the audio graph and shown', async () => {
  const here = await house();
  const { run, plan } = await here.makeDemoRun();
  let sounds: () => Promise<{ peak: number; stoppedS?: number }[]> = () => Promise.resolve([]);
  const wheel = await here.page(`/wheel?run=${run}`, async (opened) => {
    sounds = await watchSound(opened);
  });
  await confirmSound(wheel);
  const sawyer = await here.page(`/sawyer?run=${run}`);
  const before = sawyer.locator('.cautions');
  await before.getByText(/^Never tilt while the wood stands still in the cut\..* 0\.7° of room/).waitFor();
  await start(sawyer);
  await stateIs(wheel, 'feeding');
  const order = plan.leads === 'head' ? plan.marks.toReversed() : plan.marks;
  for (const [index, mark] of order.entries()) {
    await wheel.locator(`[data-target="${mark.callDeg}"]`).waitFor();
    // So that no press comes sooner than the wood can.
    await sawyer.waitForTimeout(EARNED_MS);
    await sawyer.keyboard.press('Space', { delay: 30 });
    const reached = async (): Promise<number> => (await here.get(`/api/runs/${run}`)).json.mark;
    await expect.poll(reached, { message: `press ${index + 1}` }).toBe(mark.mark);
  }
  await stateIs(sawyer, 'finished');
  await stateIs(wheel, 'finished');
  const played = (await sounds()).slice(1);
  // One for each mark and one at the end. How a press cuts words off is in test/core/run.
  expect(played).toHaveLength(order.length + 1);
  expect(played.every(({ peak }) => peak > 0.05)).toBe(true);
  const lines = await here.journal(run);
  expect(lines.filter(({ kind }) => kind === 'unplayed')).toEqual([]);
});

it('will not start while a listener has not confirmed, and says so; then starts without sound', async () => {
  const here = await house();
  const { run } = await here.makeDemoRun();
  const wheel = await here.page(`/wheel?run=${run}`);
  await wheel.getByText('Play the test words').waitFor();
  const sawyer = await here.page(`/sawyer?run=${run}`);
  await sawyer.getByText('sound not confirmed').waitFor();
  await start(sawyer);
  await sawyer.getByRole('button', { name: 'Start without sound' }).click();
  await stateIs(sawyer, 'feeding');
});

it('takes a foot kept down for a stop, and the press that it began with back', async () => {
  const here = await house();
  const { run, plan } = await here.makeDemoRun();
  const sawyer = await here.page(`/sawyer?run=${run}`);
  await startUnheard(sawyer);
  await stateIs(sawyer, 'feeding');
  await sawyer.keyboard.press('Space');
  await heard(sawyer, 'Press, taken');
  const before = (await here.get(`/api/runs/${run}`)).json.mark;
  await sawyer.waitForTimeout(EARNED_MS);
  await sawyer.keyboard.down('Space');
  await heard(sawyer, 'Foot kept down');
  await stateIs(sawyer, 'stopped');
  await sawyer.keyboard.up('Space');
  expect((await here.get(`/api/runs/${run}`)).json).toMatchObject({ state: 'stopped', mark: before });
  expect(plan.marks.length).toBeGreaterThan(2);
  await sawyer.keyboard.press('KeyR');
  await stateIs(sawyer, 'feeding');
});

it('reads a hand scanner without a field, takes its Enter for no press, and tells a wrong, doubled and skipped mark', async () => {
  const here = await house();
  const { run, plan } = await here.makeDemoRun();
  const sawyer = await here.page(`/sawyer?run=${run}`);
  await startUnheard(sawyer);
  await stateIs(sawyer, 'feeding');
  const order = plan.leads === 'head' ? plan.marks.toReversed() : plan.marks;
  const [first, second, , fourth] = order.map(({ mark }) => mark);
  if (first === undefined || second === undefined || fourth === undefined)
    throw new Error('the demo has too few marks');
  const strip = plan as unknown as StripOf;
  // All keys in one go, inside the page's own event loop: a scanner types faster than a test can over the wire.
  const scan = (text: string): Promise<void> =>
    sawyer.evaluate((typed) => {
      for (const key of [...typed, 'Enter']) {
        const code = key === 'Enter' ? 'Enter' : /\d/.test(key) ? `Digit${key}` : `Key${key}`;
        for (const kind of ['keydown', 'keyup'])
          document.body.dispatchEvent(new KeyboardEvent(kind, { key, code, bubbles: true, cancelable: true }));
      }
    }, text);
  await scan(markCodeText(strip, first));
  await heard(sawyer, `Mark ${first} scanned, taken`);
  await scan(markCodeText(strip, first));
  await sawyer.getByText('Mark doubled').waitFor();
  await sawyer.waitForTimeout(3 * EARNED_MS);
  await scan(markCodeText(strip, fourth));
  await sawyer.getByText('Mark skipped').waitFor();
  await scan(markCodeText(strip, second));
  await sawyer.getByText('Mark behind').waitFor();
  await scan(markCodeText({ ...strip, title: 'another frame' }, second));
  await heard(sawyer, 'another strip');
  const lines = await here.journal(run);
  expect(lines.filter(({ kind }) => kind === 'pressed')).toEqual([]);
  expect(lines.filter(({ kind }) => kind === 'scanned').map(({ mark }) => mark)).toEqual([
    first,
    first,
    fourth,
    second,
  ]);
});

it('stands at the same mark after a reload in mid-run, and one tap brings a sound back that the device has put to sleep', async () => {
  const here = await house();
  const { run, plan } = await here.makeDemoRun();
  let sounds: () => Promise<unknown[]> = () => Promise.resolve([]);
  const wheel = await here.page(`/wheel?run=${run}`, async (opened) => {
    sounds = await watchSound(opened);
    await opened.addInitScript(() => {
      const Real = AudioContext;
      class Kept extends Real {
        constructor(options?: AudioContextOptions) {
          super(options);
          Object.assign(window, { kept: this });
        }
      }
      Object.assign(window, { AudioContext: Kept });
    });
  });
  await confirmSound(wheel);
  const sawyer = await here.page(`/sawyer?run=${run}`);
  await start(sawyer);
  await stateIs(sawyer, 'feeding');
  await sawyer.keyboard.press('Space');
  await heard(sawyer, 'Press, taken');

  await wheel.evaluate(() => (window as unknown as { kept: AudioContext }).kept.suspend());
  await sawyer.getByText('sound asleep').waitFor();
  await stateIs(sawyer, 'lost');
  await wheel.locator('.lost', { hasText: 'Hold the tilt' }).waitFor();
  const resume = sawyer.getByRole('button', { name: 'Resume', exact: true });
  await resume.click();
  await sawyer.getByRole('button', { name: 'Resume without sound' }).waitFor();
  await sawyer.keyboard.press('Space');
  await heard(sawyer, 'Press, not taken');
  await wheel.getByRole('button', { name: 'wake it' }).click();
  await sawyer.getByText('sound confirmed').waitFor();
  const before = (await sounds()).length;
  await sawyer.keyboard.press('Space');
  await heard(sawyer, 'Press, not taken');
  await resume.click();
  await stateIs(sawyer, 'feeding');
  await expect.poll(async () => (await sounds()).length).toBeGreaterThan(before);
  await sawyer.reload();
  const second = (plan.leads === 'head' ? plan.marks.toReversed() : plan.marks)[1];
  await sawyer.locator('.state-place', { hasText: `next ${second?.mark} of ` }).waitFor();
  // Confirmed once, this tab need not be asked again.
  await wheel.reload();
  await wheel.getByText('Sound confirmed').waitFor();
});

it('says within half a second that the server is gone, and comes back by itself', async () => {
  const here = await house();
  const { run } = await here.makeDemoRun();
  const wheel = await here.page(`/wheel?run=${run}`);
  await confirmSound(wheel);
  await start(await here.page(`/sawyer?run=${run}`));
  await stateIs(wheel, 'feeding');
  await wheel.bringToFront();
  // Frozen, not ended: the connection stands and only the beats stop.
  await wheel.evaluate(() => {
    const seen = new MutationObserver(() => {
      if (document.querySelector('.gone') !== null) Object.assign(window, { goneAtMs: Date.now() });
    });
    seen.observe(document.body, { subtree: true, childList: true });
  });
  const frozenAtMs = Date.now();
  here.running.program.child.kill('SIGSTOP');
  await wheel.locator('.gone', { hasText: 'Hold the tilt' }).waitFor();
  const goneAtMs = await wheel.evaluate(() => (window as unknown as { goneAtMs: number }).goneAtMs);
  expect(goneAtMs - frozenAtMs).toBeLessThan(500);
  here.running.program.child.kill('SIGCONT');
  await wheel.locator('.gone').waitFor({ state: 'detached' });

  const { port } = new URL(here.url);
  for (const signal of ['SIGKILL', 'SIGTERM'] as const) {
    await here.running.program.end(signal);
    await wheel.locator('.gone').waitFor();
    here.running.program = await startProgram(here.dataDir, ['--port', port]);
    await wheel.locator('.gone').waitFor({ state: 'detached' });
    await stateIs(wheel, 'stopped');
  }
});

it('keeps the plan that was there when a drop cannot be planned, and shows each problem at its place', async () => {
  const here = await house();
  const start = await here.page('/');
  await start.locator('.plan').waitFor();
  const json = { name: 'job.json', mimeType: 'application/json' };
  await start.locator('input[type=file]').setInputFiles([
    {
      ...json,
      buffer: Buffer.from('{"format":"by-the-mark/job@1","frame":{"siding":-3},"shape":{"pickup":"mine.csv"}}'),
    },
    { name: 'mine.csv', mimeType: 'text/csv', buffer: Buffer.from('girth,bevel\n0,1\n100,two\n') },
  ]);
  await start.locator('.problems', { hasText: 'frame.siding' }).waitFor();
  expect(await start.locator('.problems').textContent()).toContain('mine.csv, row 2');
  expect(await start.locator('.plan').count()).toBe(1);
  await start.locator('input[type=file]').setInputFiles([
    {
      ...json,
      buffer: Buffer.from('{"format":"by-the-mark/job@1","frame":{"siding":60},"shape":{"pickup":"mine.csv"}}'),
    },
    { name: 'mine.csv', mimeType: 'text/csv', buffer: Buffer.from('girth,bevel\n0,1\n300,4\n600,6\n900,5\n1200,2\n') },
  ]);
  await start.locator('.problems').waitFor({ state: 'detached' });
  await start.getByRole('button', { name: 'This is so' }).click();
  await start.getByRole('button', { name: 'This is so' }).waitFor({ state: 'detached' });
  await start.getByRole('button', { name: 'Make this run' }).click();
  await start.waitForURL(/\/sawyer\?run=/);
  await stateIs(start, 'ready');
});

it('lets a handwheel be turned in a rehearsal and tells afterwards how far off the tilt was', async () => {
  const here = await house();
  const { run } = await here.makeDemoRun('rehearsal', { kind: 'simulated', mPerMin: 12, seed: 2 });
  const wheel = await here.page(`/wheel?run=${run}`);
  await confirmSound(wheel);
  await here.post(`/api/runs/${run}/start`);
  await stateIs(wheel, 'feeding');
  await wheel.keyboard.down('ArrowRight');
  await expect
    .poll(async () => Number.parseFloat((await wheel.locator('.handwheel-readout').textContent()) ?? ''))
    .toBeGreaterThan(1);
  await wheel.keyboard.up('ArrowRight');
  const positionMm = async (): Promise<number> => (await here.get(`/api/runs/${run}`)).json.positionMm;
  await expect.poll(positionMm, { timeout: 8000 }).toBeGreaterThan(100);
  await wheel.getByRole('button', { name: 'Stop feed' }).click();
  await stateIs(wheel, 'stopped');
  await here.post(`/api/runs/${run}/finish`);
  // Whoever learns a hand from them has to know that no sensor told these tilts.
  const tilts = (await here.journal(run)).filter(({ kind }) => kind === 'tilted');
  expect(new Set(tilts.map(({ id }) => id))).toEqual(new Set(['page wheel']));
  const record = await here.page(`/record?run=${run}`);
  await record.getByText('Tilt off, rms').waitFor();
  await record.locator('.loft-off').first().waitFor();
  expect(await record.locator('.timeline-row').count()).toBeGreaterThan(3);
});
