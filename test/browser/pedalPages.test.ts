/** What foot and scanner do on the sawyer page, in a real browser against the program itself. */
import { expect, it } from 'vitest';
import { markCodeText, type StripOf } from '../../server/wire/message/markCode.ts';
import { confirmSound, watchSound } from '../kit/chromium.ts';
import { EARNED_MS } from '../kit/earned.ts';
import { heard, pagesHouse, start, startUnheard, stateIs } from '../kit/pagesHouse.ts';

const house = pagesHouse();

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
