import fc from 'fast-check';
import { expect, it, onTestFinished } from 'vitest';
import { outsideClient } from '../kit/client.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { startProgram } from '../kit/program.ts';
import { goodFiles, goodJob } from '../wire/goodJobs.ts';

const junk = fc.oneof(
  fc.constantFrom(null, '', -1, 1e9, 'aft', [], {}, '12 mm\u009b', '__proto__'),
  fc.jsonValue({ maxDepth: 2 }),
);
const spoilt = fc
  .array(
    fc.record({ section: fc.constantFrom('', 'frame', 'shape', 'marks', 'saw', 'voice'), pick: fc.nat(), value: junk }),
    {
      minLength: 1,
      maxLength: 3,
    },
  )
  .map((steps) => {
    const job: Record<string, unknown> = goodJob();
    for (const { section, pick, value } of steps) {
      const at = section === '' ? job : job[section];
      if (typeof at !== 'object' || at === null || Array.isArray(at)) continue;
      const names = Object.keys(at);
      Object.assign(at, { [names[pick % Math.max(1, names.length)] ?? 'x']: value });
    }
    return job;
  });
const ask = fc.record({
  job: spoilt,
  files: fc.oneof(fc.constant(goodFiles()), fc.record({ 'pickup.csv': fc.string({ maxLength: 60 }) })),
  mode: fc.constantFrom('pair', 'solo', 'rehearsal', 'alone'),
  feed: fc.constantFrom(
    { kind: 'external' },
    { kind: 'simulated', mPerMin: 3, seed: 1 },
    { kind: 'simulated', mPerMin: -3 },
  ),
});

it('answers every spoilt request for a run with what is wrong and where, and never makes half a run', async () => {
  const program = await startProgram(freeDataDir());
  onTestFinished(() => program.end('SIGKILL'));
  const { get, post, journal } = outsideClient(program.url);
  const made: string[] = [];
  let refused = 0;
  for (const body of fc.sample(ask, 200)) {
    const { status, json } = await post('/api/runs', body);
    if (status === 201) made.push(json.run);
    else {
      // What is planned but forbids the cut is refused by another status, with its warnings.
      expect(status, JSON.stringify(body)).toBe(json.error.code === 'forbidden-cut' ? 409 : 400);
      expect(json.error).toMatchObject({ code: expect.stringMatching(/./), message: expect.stringMatching(/./) });
      expect(json.error.path, json.error.message).toMatch(/./);
      refused += 1;
    }
  }
  expect(refused).toBeGreaterThan(100);
  const { json: listed } = await get('/api/runs');
  expect(listed.map(({ run }: { run: string }) => run).toSorted()).toEqual(made.slice(-50).toSorted());
  for (const run of made.slice(-5)) {
    expect((await journal(run))[0]).toMatchObject({ seq: 1, kind: 'made' });
    expect((await get(`/api/runs/${run}/clips`)).json.length).toBeGreaterThan(3);
  }
});
