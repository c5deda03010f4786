/** A plan that forbids the cut, from outside, on the real program: no run, but for a rehearsal or with words. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type App, createApp } from '../../server/app.ts';
import type { PlanWarning } from '../../server/core/plan/cure.ts';
import { mergePatch } from '../../server/wire/job/mergePatch.ts';
import { outsideClient } from '../kit/client.ts';
import { FORBIDDEN } from '../kit/forbiddenJobs.ts';

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

const make = (ask: object, of: keyof typeof FORBIDDEN = 'twist') =>
  here.post('/api/runs', { ...FORBIDDEN[of], mode: 'pair', feed: { kind: 'external' }, ...ask });
const madeLine = async (run: string) => (await here.journal(run))[0];

test.each((Object.keys(FORBIDDEN) as (keyof typeof FORBIDDEN)[]).filter((code) => code !== 'which-end-unsure'))(
  '%s: 409 with the warnings, and no run',
  async (code) => {
    const before = (await here.get('/api/runs')).json.length;
    for (const mode of ['pair', 'solo']) {
      const { status, json } = await make({ mode, feed: { kind: 'simulated', mPerMin: 1 } }, code);
      expect({ status, code: json.error.code }).toEqual({ status: 409, code: 'forbidden-cut' });
      expect(json.error.message).toContain(code);
      expect(json.warnings.map((warning: PlanWarning) => [warning.code, warning.forbids])).toEqual([[code, true]]);
    }
    expect((await here.get('/api/runs')).json.length).toBe(before);
  },
);

test('a job that does not say which end leads makes a run: pages and papers ask for it', async () => {
  const { status, json } = await make({}, 'which-end-unsure');
  expect(status).toBe(201);
  expect(json.plan.warnings.map(({ code }: PlanWarning) => code)).toContain('which-end-unsure');
  expect(json.plan.despite).toBe(undefined);
});

test('a cure that it names makes the run', async () => {
  const [warning] = (await make({})).json.warnings as PlanWarning[];
  const cure = warning?.cures?.[0];
  if (cure === undefined || cure.kind === 'routine') throw new Error('no cure');
  const { status } = await make({ job: mergePatch(FORBIDDEN.twist.job, cure.change) });
  expect(status).toBe(201);
});

test('a quick turn forbids no run in a routine that spreads it', async () => {
  expect((await make({}, 'quick-turn')).status).toBe(409);
  const made = await make({ routine: 'even turning' }, 'quick-turn');
  expect(made.status).toBe(201);
  expect(made.json.plan.despite).toBeUndefined();
});

test('a rehearsal saws nothing, and is made', async () => {
  const made = await make({ mode: 'rehearsal', despite: 'not needed' });
  expect(made.status).toBe(201);
  expect(await madeLine(made.json.run)).not.toHaveProperty('despite');
});

test('words make it, as data: they stand in plan, journal and the run made anew for a square that is off', async () => {
  const words = '  {"$gt": ""}; <script>alert(1)</script>\n the stock   is scrap, for practice ';
  const kept = '{"$gt": ""}; <script>alert(1)</script> the stock is scrap, for practice';
  const made = await make({ despite: words });
  expect(made.status).toBe(201);
  expect(made.json.plan.despite).toEqual({ words: kept, codes: ['twist'] });
  expect(await madeLine(made.json.run)).toMatchObject({ kind: 'made', despite: kept });
  const anew = await here.post(`/api/runs/${made.json.run}/square-anew`, { shownDeg: 0.5 });
  expect(anew.status).toBe(201);
  expect((await here.get(`/api/runs/${anew.json.run}/plan`)).json.despite.words).toBe(kept);
  expect(await madeLine(anew.json.run)).toMatchObject({ despite: kept });
});

test.each([
  ['nothing', ''],
  ['white space', ' \t\n '],
  ['what nobody sees', '\u200b\u2060'],
  ['dots', '...'],
  ['too much', 'w'.repeat(501)],
  ['a line that is turned round', 'all right \u202e thgir lla'],
  ['a control character', 'well\u0007'],
  ['no text', 7],
])('words that are %s are refused', async (_, despite) => {
  const { status, json } = await make({ despite });
  expect({ status, path: json.error.path }).toEqual({ status: 400, path: 'despite' });
});
