import { expect, it, onTestFinished } from 'vitest';
import { outsideClient } from '../kit/client.ts';
import { untilEarned } from '../kit/earned.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { DOOR, startProgram } from '../kit/program.ts';

async function program(dataDir = freeDataDir()) {
  const started = await startProgram(dataDir, [], DOOR);
  onTestFinished(() => started.end('SIGKILL'));
  return { ...started, ...outsideClient(started.url) };
}

it('walks a whole run on presses alone, with no browser, and leaves a journal without a gap', async () => {
  const { makeDemoRun, socket, post, get, journal } = await program();
  const { run, plan } = await makeDemoRun();
  const order = plan.leads === 'head' ? plan.marks.toReversed() : plan.marks;
  const readout = await socket(`/readout?run=${run}`);
  const feed = await socket(`/feed?run=${run}`);
  expect((await post(`/api/runs/${run}/start`)).status).toBe(200);
  await readout.until(({ kind, mark }) => kind === 'call' && mark === order[0]?.mark);
  for (const [index, mark] of order.entries()) {
    if (index > 0) await untilEarned();
    feed.send({ kind: 'pedal', id: `p${index}` });
    const answer = await feed.until(({ id }) => id === `p${index}`);
    expect(answer, JSON.stringify(answer)).toMatchObject({ ok: true, seq: expect.any(Number) });
    const next = order[index + 1];
    const call = await readout.until(({ kind, cause }) => kind === 'call' && cause === `p${index}`);
    if (next !== undefined) expect(call).toMatchObject({ mark: next.mark, deg: next.callDeg, startsInMs: 0 });
    expect((await get(`/api/runs/${run}`)).json).toMatchObject({ mark: mark.mark });
  }
  expect((await get(`/api/runs/${run}`)).json).toMatchObject({ state: 'finished' });
  const lines = await journal(run);
  expect(lines.map(({ seq }) => seq)).toEqual(lines.map((_, index) => index + 1));
  expect(lines.filter(({ kind }) => kind === 'pressed')).toHaveLength(order.length);
  expect(lines.every(({ atMs }, index) => index === 0 || atMs >= (lines[index - 1]?.atMs ?? 0))).toBe(true);
});

it('loses nothing acknowledged when it is killed between any two events, and stands stopped at the same mark', async () => {
  const dataDir = freeDataDir();
  let here = await program(dataDir);
  const { run, plan } = await here.makeDemoRun();
  await here.post(`/api/runs/${run}/start`);
  let kept = 0;
  for (let killed = 0; killed < 4; killed += 1) {
    const feed = await here.socket(`/feed?run=${run}`);
    for (let press = 0; press < 2; press += 1) {
      if (press > 0) await untilEarned();
      const from = feed.heard.length;
      feed.send({ kind: 'pedal', id: `k${killed}-${press}` });
      const answer = await feed.until(({ id }) => id === `k${killed}-${press}`, from);
      expect(answer.ok).toBe(true);
      kept = answer.seq ?? 0;
    }
    const { mark } = (await here.get(`/api/runs/${run}`)).json;
    await here.end('SIGKILL');
    here = await program(dataDir);
    expect((await here.get(`/api/runs/${run}`)).json).toMatchObject({ state: 'stopped', mark });
    const lines = await here.journal(run);
    expect(lines.length).toBeGreaterThanOrEqual(kept);
    expect(lines.map(({ seq }) => seq)).toEqual(lines.map((_, index) => index + 1));
    expect(lines.filter(({ kind }) => kind === 'pressed')).toHaveLength(2 * (killed + 1));
    expect((await here.post(`/api/runs/${run}/resume`)).status).toBe(200);
  }
  expect(plan.marks.length).toBeGreaterThan(8);
});

it('feeds a rehearsal by itself and tells afterwards how far off the tilt was', async () => {
  const { makeDemoRun, socket, post, get } = await program();
  const { run } = await makeDemoRun('rehearsal', { kind: 'simulated', mPerMin: 10, seed: 7 });
  const readout = await socket(`/readout?run=${run}`);
  const tilt = await socket(`/feed?run=${run}`);
  await post(`/api/runs/${run}/start`);
  const call = await readout.until(({ kind, mark }) => kind === 'call' && mark !== undefined);
  tilt.send({ kind: 'tilt', deg: call.deg, id: 't' });
  expect((await tilt.until(({ id }) => id === 't')).ok).toBe(true);
  // Between two counts, on a busy machine, nobody knows how fast the tilt must go.
  const guide = await readout.until(
    ({ kind, positionMm, rateDegPerS }) =>
      kind === 'guide' && Number(positionMm) > 20 && typeof rateDegPerS === 'number',
  );
  expect(guide).toMatchObject({ state: 'feeding', tiltDeg: call.deg });
  await post(`/api/runs/${run}/stop-feed`);
  const debrief = (await get(`/api/runs/${run}/debrief`)).json;
  expect(debrief.measured).toBe(true);
  expect(debrief.rmsErrorDeg).toBeGreaterThan(0);
});
