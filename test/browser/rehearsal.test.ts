/** A rehearsal's wheel on the page stands where it was left, whatever happens to line, server and page. */
import { expect, it, onTestFinished } from 'vitest';
import { openChromium } from '../kit/chromium.ts';
import { outsideClient } from '../kit/client.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { startProgram } from '../kit/program.ts';

const SOON = { timeout: 30_000 };

it('keeps its tilt through a server that stood still, one started again, and a page loaded anew; none of it is held against the hand', async () => {
  const dataDir = freeDataDir();
  let program = await startProgram(dataDir);
  onTestFinished(() => program.end('SIGKILL'));
  const browser = await openChromium();
  onTestFinished(() => browser.close());
  const outside = outsideClient(program.url);
  const { run } = await outside.makeDemoRun('rehearsal', { kind: 'simulated', mPerMin: 2, seed: 2 }, 'following');
  const wheel = await browser.newPage();
  await wheel.goto(`${program.url}/wheel?run=${run}&sound=off`);
  await wheel.locator('[data-state="ready"]').waitFor();
  const readout = async (): Promise<number> =>
    Number.parseFloat((await wheel.locator('.handwheel-readout').textContent()) ?? '');
  const state = (wanted: string) => wheel.locator(`[data-state="${wanted}"]`).waitFor();

  await wheel.keyboard.down('ArrowRight');
  await expect.poll(readout, SOON).toBeGreaterThan(6);
  await wheel.keyboard.up('ArrowRight');
  const leftAt = await readout();
  await outside.post(`/api/runs/${run}/start`);
  await state('feeding');
  const knownDeg = async (): Promise<number> => {
    const told = (await outside.journal(run)).filter(({ kind }) => kind === 'tilted');
    return Number(told.at(-1)?.deg);
  };
  await expect.poll(knownDeg, SOON).toBeGreaterThan(6);
  const deg = await knownDeg();

  program.child.kill('SIGSTOP');
  await wheel.locator('.gone').waitFor();
  program.child.kill('SIGCONT');
  await wheel.locator('.gone').waitFor({ state: 'detached' });
  expect(await readout()).toBe(leftAt);

  const { port } = new URL(program.url);
  await program.end('SIGKILL');
  await wheel.locator('.gone').waitFor();
  program = await startProgram(dataDir, ['--port', port]);
  await wheel.locator('.gone').waitFor({ state: 'detached' });
  await state('stopped');
  expect(await readout()).toBe(leftAt);

  await wheel.reload();
  await state('stopped');
  await wheel.locator('.handwheel-readout', { hasText: /\d/ }).waitFor();
  expect(await readout()).toBe(leftAt);
  await outside.post(`/api/runs/${run}/resume`);
  await state('feeding');
  await wheel.waitForTimeout(1000);
  expect(await readout()).toBe(leftAt);

  // It never told another tilt than its own.
  const tilts = (await outside.journal(run)).filter(({ kind }) => kind === 'tilted').map(({ deg: each }) => each);
  expect(new Set(tilts.slice(tilts.indexOf(deg)))).toEqual(new Set([deg]));
});
