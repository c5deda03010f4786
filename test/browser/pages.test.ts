/** The real pages in a real browser against the program itself. */
import { expect, it } from 'vitest';
import { confirmSound, watchSound } from '../kit/chromium.ts';
import { heard, pagesHouse, start, stateIs } from '../kit/pagesHouse.ts';

const house = pagesHouse();

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
  await expect.poll(positionMm, { timeout: 30_000 }).toBeGreaterThan(100);
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
