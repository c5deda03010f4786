/** The program itself is stopped and let go on in a moving run: what waited meanwhile is not carried on with. */
import { expect, it, onTestFinished } from 'vitest';
import { outsideClient } from '../kit/client.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { outsideFeed } from '../kit/outsideFeed.ts';
import { startProgram } from '../kit/program.ts';

const later = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms));

it('a run is lost before anything that waited is taken, and nothing of it is called', async () => {
  const program = await startProgram(freeDataDir());
  onTestFinished(() => program.end('SIGKILL'));
  const here = outsideClient(program.url);
  const { run } = await here.makeDemoRun();
  const feed = await here.socket(`/feed?run=${run}`);
  await here.post(`/api/runs/${run}/start`);
  const wood = outsideFeed({ mPerMin: 3, seed: 1 }, (frame) => feed.send(frame));
  onTestFinished(() => wood.end());
  await later(1500);
  expect((await here.get(`/api/runs/${run}`)).json.state).toBe('feeding');
  program.child.kill('SIGSTOP');
  await later(1200);
  feed.send({ kind: 'pedal', id: 'waited' });
  await later(300);
  program.child.kill('SIGCONT');
  expect(await feed.until(({ id }) => id === 'waited')).toMatchObject({ ok: false, error: { code: 'not-feeding' } });
  expect((await here.get(`/api/runs/${run}`)).json).toMatchObject({ state: 'lost', lost: 'server', takesPress: false });
  const lines = await here.journal(run);
  const lostAt = lines.findIndex(({ kind }) => kind === 'signal-lost');
  expect(lines[lostAt]).toMatchObject({ lifeline: 'server', detail: expect.stringMatching(/^The server stood still/) });
  expect(Number(lines[lostAt]?.atMs) - Number(lines[lostAt - 1]?.atMs)).toBeGreaterThan(1400);
  expect(lines.slice(lostAt).filter(({ kind, deg }) => kind === 'called' && deg !== undefined)).toEqual([]);
  expect((await here.post(`/api/runs/${run}/resume`)).json.state).toBe('feeding');
});
