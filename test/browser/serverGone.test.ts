/** A page whose server stands still or is gone. */
import { expect, it } from 'vitest';
import { confirmSound } from '../kit/chromium.ts';
import { pagesHouse, start, stateIs } from '../kit/pagesHouse.ts';
import { startProgram } from '../kit/program.ts';

const house = pagesHouse();

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
