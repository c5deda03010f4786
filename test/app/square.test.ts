/** The square at zero, from outside, on the real program. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type App, createApp } from '../../server/app.ts';
import type { Plan } from '../../server/core/plan/plan.ts';
import { loadDemo } from '../../server/demo/loadDemo.ts';
import { outsideClient } from '../kit/client.ts';

let app: App;
let here: ReturnType<typeof outsideClient>;
let data = '';
beforeAll(async () => {
  data = mkdtempSync(join(tmpdir(), 'by-the-mark-'));
  app = await createApp({ dataDir: data, lan: false, host: '127.0.0.1', port: 0 });
  here = outsideClient(app.url);
});
afterAll(async () => {
  await app.close();
  rmSync(data, { recursive: true, force: true });
});

interface Made {
  readonly run: string;
  readonly plan: Plan;
}
async function made(ask: object): Promise<Made> {
  const demo = await loadDemo();
  const answer = await here.post('/api/runs', {
    job: demo.job,
    files: demo.files,
    mode: 'pair',
    feed: { kind: 'external' },
    ...ask,
  });
  expect(answer.status).toBe(201);
  return answer.json as Made;
}
const started = async (run: string) =>
  (await here.journal(run)).find(({ kind }: { readonly kind: string }) => kind === 'started');

test('a start from outside succeeds without it, and the record says that it was not confirmed', async () => {
  const { run } = await made({});
  expect((await here.get(`/api/runs/${run}`)).json.square).toMatchObject({ seenDeg: null });
  expect((await here.post(`/api/runs/${run}/start`, {})).status).toBe(200);
  expect(await started(run)).toMatchObject({ square: 'not confirmed' });
  expect((await here.post(`/api/runs/${run}/square`, { shownDeg: 0 })).status).toBe(409);
});

test('what was seen is kept, in the record and through a restart of the page', async () => {
  const { run } = await made({});
  const { wantedDeg } = (await here.get(`/api/runs/${run}`)).json.square;
  expect((await here.post(`/api/runs/${run}/square`, { shownDeg: wantedDeg })).json.square.seenDeg).toBe(wantedDeg);
  await here.post(`/api/runs/${run}/start`, {});
  expect(await started(run)).toMatchObject({ square: 'confirmed' });
  expect((await here.journal(run)).map(({ kind }: { readonly kind: string }) => kind).slice(0, 3)).toEqual([
    'made',
    'squared',
    'started',
  ]);
});

test('in a rehearsal nobody is asked', async () => {
  const { run } = await made({ mode: 'rehearsal' });
  expect((await here.get(`/api/runs/${run}`)).json.square).toBeNull();
  await here.post(`/api/runs/${run}/start`, {});
  expect(await started(run)).not.toHaveProperty('square');
});

test('a readout that shows another figure is refused; made anew, every call is shifted', async () => {
  const { run, plan } = await made({});
  const { wantedDeg } = (await here.get(`/api/runs/${run}`)).json.square;
  const refused = await here.post(`/api/runs/${run}/square`, { shownDeg: wantedDeg + 1 });
  expect(refused).toMatchObject({ status: 409, json: { error: { code: 'not-square' } } });
  const anew = await here.post(`/api/runs/${run}/square-anew`, { shownDeg: wantedDeg + 1 });
  expect(anew.status).toBe(201);
  const again = anew.json as Made;
  expect(again.plan.marks.map(({ callDeg }) => callDeg)).toEqual(plan.marks.map(({ callDeg }) => callDeg + 1));
  expect((await here.post(`/api/runs/${again.run}/square`, { shownDeg: wantedDeg + 1 })).status).toBe(200);
  const atOnce = await made({ squareDeg: wantedDeg + 1 });
  expect(atOnce.plan.marks).toEqual(again.plan.marks);
  expect((await here.post(`/api/runs/${run}/square`, { shownDeg: 9 })).status).toBe(400);
  expect((await here.post('/api/runs/none/square-anew', { shownDeg: 0 })).status).toBe(404);
});

test('save and trial over HTTP', async () => {
  const demo = await loadDemo();
  const trial = await here.post('/api/trial', { job: demo.job, files: demo.files });
  expect(trial.status).toBe(200);
  expect((await here.post('/api/plan', { job: trial.json.job, files: trial.json.files })).status).toBe(200);
  const rows = trial.json.trial.measureAt.map(
    (at: { alongMm: number; bevelDeg: number }) => `${at.alongMm},${at.bevelDeg}`,
  );
  const told = await here.post('/api/trial/measured', {
    job: demo.job,
    files: demo.files,
    measured: ['along,bevel', ...rows].join('\n'),
  });
  expect(told.json.correction).toMatchObject({ late: null, off: null });
  const piece = 'along,bevel\n0,-4\n600,-12\n1200,-6\n1800,-2\n';
  const saved = await here.post('/api/save', { job: demo.job, files: demo.files, measured: piece });
  expect(saved.json).toMatchObject({ verdict: 'scrap', reason: 'mirrored' });
  expect((await here.post('/api/save', { job: demo.job, files: demo.files, measured: 'along\n' })).status).toBe(400);
  expect((await here.post('/api/save', { job: demo.job, files: demo.files })).json.error.path).toBe('measured');
});
