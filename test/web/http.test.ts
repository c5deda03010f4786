import { connect } from 'node:net';
import { describe, expect, onTestFinished, test } from 'vitest';

import { openWeb } from './openWeb.ts';

const JSON_BODY = { 'content-type': 'application/json' };
const JOB = { job: { format: 'by-the-mark/job@1' }, files: {} };
const RUN = { ...JOB, mode: 'pair', feed: { kind: 'external' } };

describe('the API', () => {
  test('tells its health and its version', async () => {
    const { ask } = await openWeb();
    const told = await ask('/api/health');
    expect(told.status).toBe(200);
    expect(told.json).toEqual({ ok: true, version: '1.2.3' });
  });

  test('plans a job, and tells what is wrong with one', async () => {
    const { ask } = await openWeb();
    const planned = await ask('/api/plan', { method: 'POST', body: JOB });
    expect(planned.status).toBe(200);
    expect(planned.json).toMatchObject({ format: 'by-the-mark/plan@1', marks: { length: 3 } });
    const refused = await ask('/api/plan', { method: 'POST', body: { job: { bad: true }, files: {} } });
    expect(refused.status).toBe(400);
    expect(refused.json.error).toEqual({
      code: 'missing',
      message: 'shape: found nothing; wanted a shape',
      path: 'shape',
    });
    expect(refused.json.problems).toHaveLength(1);
  });

  test('walks a run: made, started, stopped, resumed, finished, and its record read', async () => {
    const { ask } = await openWeb();
    const made = await ask('/api/runs', { method: 'POST', body: RUN });
    expect(made.status).toBe(201);
    expect(made.headers.location).toBe('/api/runs/r1');
    expect(made.json).toMatchObject({ run: 'r1', plan: { title: 'Frame 3, port' } });
    expect((await ask('/api/runs/r1')).json).toMatchObject({ run: 'r1', state: 'ready', mark: 0, positionMm: null });

    const early = await ask('/api/runs/r1/resume', { method: 'POST' });
    expect([early.status, early.json.error.code]).toEqual([409, 'not-started']);
    const started = await ask('/api/runs/r1/start', { method: 'POST', body: { withoutSound: true } });
    expect([started.status, started.json]).toMatchObject([200, { ok: true, state: 'feeding', seq: 1 }]);
    expect((await ask('/api/runs/r1/start', { method: 'POST' })).status).toBe(409);
    expect((await ask('/api/runs/r1/stop-feed', { method: 'POST' })).json.state).toBe('stopped');
    expect((await ask('/api/runs/r1/resume', { method: 'POST', body: {} })).json.state).toBe('feeding');
    expect((await ask('/api/runs/r1/finish', { method: 'POST' })).json.state).toBe('finished');

    const journal = await ask('/api/runs/r1/journal');
    expect(journal.headers['content-type']).toMatch(/^application\/x-ndjson/);
    const lines = journal.text
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line));
    expect(lines.map(({ seq, kind }) => [seq, kind])).toEqual([
      [1, 'started'],
      [2, 'stopped'],
      [3, 'resumed'],
      [4, 'ended'],
    ]);
    expect(lines[0].withoutSound).toBe(true);
  });

  test('streams a record that is longer than one piece', async () => {
    const { ask, run } = await openWeb();
    await run.command('start');
    for (let mm = 0; mm < 1000; mm += 1) void run.reading('test', { kind: 'tilt', deg: mm / 100 });
    const lines = (await ask('/api/runs/r1/journal')).text.trimEnd().split('\n');
    expect(lines.map((line) => JSON.parse(line).seq)).toEqual(Array.from({ length: 1001 }, (_, index) => index + 1));
  });

  test('gives runs, plans, clips, debriefs, jobs and mark codes', async () => {
    const { ask } = await openWeb();
    expect((await ask('/api/runs')).json).toMatchObject([{ run: 'r1' }]);
    expect((await ask('/api/runs/r1/plan')).json.format).toBe('by-the-mark/plan@1');
    expect((await ask('/api/runs/r1/debrief')).json.measured).toBe(false);
    expect((await ask('/api/jobs')).json).toEqual([{ name: 'demo', title: 'Demo' }]);
    expect((await ask('/api/jobs/demo')).json).toEqual({ job: { format: 'x' }, files: {} });

    const clips = (await ask('/api/runs/r1/clips')).json;
    const wav = await ask(clips[0].url);
    expect([wav.status, wav.headers['content-type'], wav.text]).toEqual([200, 'audio/wav', 'RIFF....WAVE']);
    expect(wav.headers['cache-control']).toContain('immutable');

    const codes = (await ask('/api/runs/r1/codes')).json;
    expect(codes).toHaveLength(4);
    for (const kind of ['', '?as=bars', '?as=qr']) {
      const svg = await ask(`${codes[3].url}${kind}`);
      expect([svg.status, svg.headers['content-type']]).toEqual([200, 'image/svg+xml; charset=utf-8']);
      expect(svg.text).toMatch(/^<svg/);
    }
  });

  test.each([
    ['GET', '/api/nothing', 404, 'no-such-address'],
    ['GET', '/api/runs/none', 404, 'no-such-run'],
    ['POST', '/api/runs/none/start', 404, 'no-such-run'],
    ['GET', '/api/runs/none/journal', 404, 'no-such-run'],
    ['GET', '/api/runs/%E0%A4%A', 400, 'bad-request'],
    ['GET', '/api/jobs/none', 404, 'no-such-job'],
    ['GET', '/api/clips/..%2f..%2fpackage.json', 404, 'no-such-clip'],
    ['GET', '/api/runs/r1/codes/5.svg', 404, 'no-such-mark'],
    ['GET', '/api/runs/r1/codes/0x1.svg', 404, 'no-such-mark'],
    ['GET', '/api/runs/r1/codes/1.svg?as=pdf', 400, 'bad-request'],
    ['GET', '/api/plan', 405, 'wrong-method'],
    ['DELETE', '/api/runs/r1', 405, 'wrong-method'],
    ['PUT', '/api/health', 405, 'wrong-method'],
    ['GET', '/api/runs/r1/start', 405, 'wrong-method'],
    ['POST', '/api/devices', 409, 'not-over-the-network'],
  ])('%s %s is answered with %i %s', async (method, path, status, code) => {
    const { ask } = await openWeb();
    const told = await ask(path, { method });
    expect([told.status, told.json.error.code]).toEqual([status, code]);
    if (status === 405) expect(told.headers.allow).toBeTruthy();
  });

  test.each([
    ['no JSON', { text: '{"job":', headers: { 'content-type': 'application/json' } }, 400, 'not-json'],
    ['something after the JSON', { text: '{} {}', headers: { 'content-type': 'application/json' } }, 400, 'not-json'],
    ['no object', { text: '7', headers: { 'content-type': 'application/json' } }, 400, 'not-json'],
    [
      'a job nested very deep',
      {
        text: `{"files":{},"job":${'['.repeat(1e5)}${']'.repeat(1e5)}}`,
        headers: { 'content-type': 'application/json' },
      },
      400,
      'bad-request',
    ],
    ['nothing', {}, 400, 'bad-shape'],
    ['no job', { body: { files: {} } }, 400, 'bad-shape'],
    ['an unknown field', { body: { ...JOB, speed: 3 } }, 400, 'bad-shape'],
    ['a form', { text: 'job=1', headers: { 'content-type': 'application/x-www-form-urlencoded' } }, 415, 'json-only'],
    ['plain text', { text: '{"job":{},"files":{}}', headers: { 'content-type': 'text/plain' } }, 415, 'json-only'],
    [
      'a packed body',
      { text: 'xx', headers: { 'content-type': 'application/json', 'content-encoding': 'gzip' } },
      415,
      'json-only',
    ],
    ['5 MB', { body: { job: {}, files: { a: 'x'.repeat(5_000_000) } } }, 413, 'too-large'],
  ])('a plan asked for with %s is refused', async (_name, init, status, code) => {
    const { ask, reported } = await openWeb();
    const told = await ask('/api/plan', { method: 'POST', ...init });
    expect([told.status, told.json.error.code]).toEqual([status, code]);
    expect(typeof told.json.error.message).toBe('string');
    expect(reported).toEqual([]);
  });

  test('a long body is read as a short one is, and its unknown fields are told as a number', async () => {
    const { ask, reported } = await openWeb();
    const long = { job: {}, files: { 'a.csv': 'x'.repeat(500_000) } };
    expect((await ask('/api/plan', { method: 'POST', body: long })).json.marks).toHaveLength(3);
    const unknown = Object.fromEntries(Array.from({ length: 100_000 }, (_, n) => [`a${n}`, 0]));
    const told = await ask('/api/plan', { method: 'POST', body: { ...long, ...unknown } });
    expect([told.status, told.json.error.message]).toEqual([
      400,
      'message: there is no field "a0" here, nor 99999 more that were sent',
    ]);
    expect(
      (await ask('/api/plan', { method: 'POST', text: `{"a":"${'x'.repeat(50_000)}`, headers: JSON_BODY })).json,
    ).toMatchObject({
      error: { code: 'not-json' },
    });
    expect(reported).toEqual([]);
  });

  test('a long body is taken only where one can be meant', async () => {
    const { ask } = await openWeb();
    const body = { withoutSound: true, more: 'x'.repeat(50_000) };
    expect((await ask('/api/runs/r1/start', { method: 'POST', body })).status).toBe(413);
  });

  test('more long bodies at a time than a workshop has are sent away unread', async () => {
    const { url, ask } = await openWeb();
    const { hostname, port } = new URL(url);
    const waiting = Array.from({ length: 8 }, () => connect(Number(port), hostname));
    onTestFinished(() => {
      for (const socket of waiting) socket.destroy();
    });
    const head =
      'POST /api/plan HTTP/1.1\r\nHost: 127.0.0.1:PORT\r\nContent-Type: application/json\r\nContent-Length: 90000\r\n\r\n{';
    for (const socket of waiting) socket.write(head.replace('PORT', port));
    const body = { ...JOB, files: { 'a.csv': 'x'.repeat(50_000) } };
    await expect.poll(async () => (await ask('/api/plan', { method: 'POST', body })).status).toBe(429);
    // A short one is still planned.
    expect((await ask('/api/plan', { method: 'POST', body: JOB })).status).toBe(200);
    for (const socket of waiting) socket.destroy();
    await expect.poll(async () => (await ask('/api/plan', { method: 'POST', body })).status).toBe(200);
  });

  test('keeps its own failures to itself', async () => {
    const { ask, reported } = await openWeb();
    const told = await ask('/api/plan', { method: 'POST', body: { job: { crash: true }, files: {} } });
    expect([told.status, told.json.error.code]).toEqual([500, 'failed']);
    expect(told.text).not.toMatch(/secret|root|\bat /);
    expect(reported).toHaveLength(1);
  });
});
