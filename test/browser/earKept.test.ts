/** A page that listens, stalls, breaks its connection and is killed. How soon it is told is measured by `npm run bench -- ears`. */
import { expect, it, onTestFinished } from 'vitest';
import { browserHouse } from '../kit/browserHouse.ts';
import { outsideClient } from '../kit/client.ts';
import { crash, openEar, stall } from '../kit/hiccups.ts';

const house = browserHouse();
const PATIENT = { timeout: 8000 };

it('a hiccup of its only listener does not end a run, and its end does', async () => {
  const here = outsideClient(house.program.url);
  const { run } = await here.makeDemoRun();
  const ear = await openEar(house.browser, house.program.url, run);
  onTestFinished(() => ear.close());
  await here.post(`/api/runs/${run}/start`);
  const view = async () => (await here.get(`/api/runs/${run}`)).json;
  for (let i = 0; i < 3; i += 1) {
    await stall(ear.page, 500);
    ear.line.breakAll();
    await ear.page.waitForTimeout(2000);
    expect(await view()).toMatchObject({ state: 'feeding', listeners: [{ hearing: 'confirmed' }] });
  }
  expect((await here.journal(run)).filter(({ kind }) => kind === 'listener' || kind === 'signal-lost')).toHaveLength(2);
  await crash(ear.page);
  await expect.poll(async () => (await view()).state, PATIENT).toBe('lost');
  expect(await view()).toMatchObject({ lost: 'sound', listeners: [], takesPress: false });
  expect((await here.post(`/api/runs/${run}/resume`)).status).toBe(409);
  expect((await here.post(`/api/runs/${run}/resume`, { withoutSound: true })).json.state).toBe('feeding');
});
