/** A page that listens, stalls, breaks its connection and is killed. How soon it is told is measured by `npm run bench -- ears`. */
import { expect, it, onTestFinished } from 'vitest';
import { browserHouse } from '../kit/browserHouse.ts';
import { outsideClient } from '../kit/client.ts';
import { crash, openEar, stall } from '../kit/hiccups.ts';
import { unixMs } from '../kit/outsideFeed.ts';

const house = browserHouse();
const PATIENT = { timeout: 30_000 };
/** It is waited for longer than this. */
const SURELY_KEPT_MS = 1000;

it('a hiccup of its only listener does not end a run, and its end does', async () => {
  const here = outsideClient(house.program.url);
  const { run } = await here.makeDemoRun();
  const ear = await openEar(house.program.url, run);
  onTestFinished(() => ear.close());
  await here.post(`/api/runs/${run}/start`);
  const view = async () => (await here.get(`/api/runs/${run}`)).json;
  const lostAtMs = async () => (await here.journal(run)).find(({ kind }) => kind === 'signal-lost')?.atMs ?? null;
  const beganMs = unixMs();
  await stall(ear.page, 500);
  ear.line.breakAll();
  await ear.page.waitForTimeout(2000);
  const lost = await lostAtMs();
  // A machine that is too busy to bring the page back in time has lost it rightly, and not before its time.
  if (lost === null) expect(await view()).toMatchObject({ state: 'feeding', listeners: [{ hearing: 'confirmed' }] });
  else expect(lost - beganMs).toBeGreaterThan(SURELY_KEPT_MS);
  await crash(ear.page);
  await expect.poll(async () => (await view()).state, PATIENT).toBe('lost');
  await expect.poll(async () => (await view()).listeners, PATIENT).toEqual([]);
  expect((await here.post(`/api/runs/${run}/resume`)).status).toBe(409);
  expect((await here.post(`/api/runs/${run}/resume`, { withoutSound: true })).json.state).toBe('feeding');
});
