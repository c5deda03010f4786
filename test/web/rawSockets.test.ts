import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { openWeb } from './openWeb.ts';

const START = { method: 'POST' } as const;

describe('/feed', () => {
  test('answers each frame, with its id and the place in the journal', async () => {
    const { raw, ask } = await openWeb();
    const feed = raw('/feed?run=r1');
    await feed.opened;
    feed.send({ kind: 'pedal', id: 'early' });
    expect(await feed.next()).toEqual({
      ok: false,
      id: 'early',
      error: { code: 'not-feeding', message: 'refused: not-feeding' },
    });
    await ask('/api/runs/r1/start', START);
    feed.send({ kind: 'pedal', id: 'p1' });
    feed.send({ kind: 'pedal' });
    feed.send({ kind: 'pedal', gesture: 'again' });
    feed.send({ kind: 'mark', mark: 3, offsetMm: 0 });
    feed.send({ kind: 'tilt', deg: 12.3 });
    expect(await feed.answers(5)).toEqual([
      { ok: true, id: 'p1', seq: 2 },
      { ok: true, seq: 3 },
      { ok: true, seq: 4 },
      { ok: true, seq: 5 },
      { ok: true, seq: 6 },
    ]);
  });

  test('answers in order, though travel takes longer to be kept than a press', async () => {
    const { raw, ask } = await openWeb();
    await ask('/api/runs/r1/start', START);
    const feed = raw('/feed?run=r1');
    await feed.opened;
    feed.send({ kind: 'travel', mm: 1, id: 'a' });
    feed.send({ kind: 'pedal', id: 'b' });
    feed.send('{');
    feed.send({ kind: 'travel', mm: 2, id: 'c' });
    const answers = (await feed.answers(4)) as { id?: string }[];
    expect(answers.map(({ id }) => id)).toEqual(['a', 'b', undefined, 'c']);
  });

  test('tells the run when the source is gone', async () => {
    const { raw, run } = await openWeb();
    const feed = raw('/feed?run=r1');
    await feed.opened;
    feed.send({ kind: 'travel', mm: 1 });
    await feed.next();
    feed.socket.close();
    await feed.closed;
    await expect.poll(() => run.heard.closed).toEqual([run.heard.readings[0]?.source]);
  });

  test('outlives frames that are binary, too long, or no frames at all', async () => {
    const { raw, run } = await openWeb();
    const feed = raw('/feed?run=r1');
    await feed.opened;
    const bad = [
      Buffer.from('{"kind":"pedal"}'),
      'x'.repeat(2000),
      '',
      '[]',
      'null',
      '{"kind":"pedal","gesture":"next"}',
      '{"kind":"pedal","id":7}',
      `{"kind":"pedal","id":"${'x'.repeat(65)}"}`,
      '{"kind":"mark","mark":0}',
      '{"kind":"mark","mark":1.5}',
      '{"kind":"travel","mm":"12"}',
      '{"kind":"travel","mm":1e999}',
      '{"kind":"tilt"}',
      '{"kind":"tilt","deg":1,"more":1}',
    ];
    for (const frame of bad) feed.send(frame);
    for (const answer of await feed.answers(bad.length))
      expect(answer).toMatchObject({ ok: false, error: { code: /./ } });
    expect(run.heard.readings).toEqual([]);
    feed.send({ kind: 'tilt', deg: 1, id: 'still here' });
    expect(await feed.next()).toMatchObject({ ok: true, id: 'still here' });
  });

  test('answers whatever text it is sent, and lives on', async () => {
    const { raw, run } = await openWeb();
    const almost = fc.record(
      {
        kind: fc.constantFrom('pedal', 'mark', 'travel', 'tilt', 'x'),
        gesture: fc.anything(),
        mark: fc.anything(),
        id: fc.anything(),
      },
      { requiredKeys: [] },
    );
    const frames = fc.oneof(
      fc.string(),
      fc.json(),
      almost.map((frame) => JSON.stringify(frame)),
    );
    await fc.assert(
      fc.asyncProperty(fc.array(frames, { maxLength: 40 }), async (sent) => {
        const feed = raw('/feed?run=r1');
        await feed.opened;
        for (const frame of sent) feed.send(frame);
        for (const answer of await feed.answers(sent.length)) expect(answer).toHaveProperty('ok');
        feed.send({ kind: 'tilt', deg: 0, id: 'end' });
        expect(await feed.next()).toMatchObject({ ok: true, id: 'end' });
        feed.close();
      }),
      { numRuns: 25 },
    );
    expect(run.view().mark).toBe(0);
  });

  test('says so when a reading could not be kept', async () => {
    const { raw, run, reported } = await openWeb();
    run.breakDown();
    const feed = raw('/feed?run=r1');
    await feed.opened;
    feed.send({ kind: 'tilt', deg: 1, id: 't' });
    const answer = await feed.next();
    expect(answer).toMatchObject({ ok: false, id: 't', error: { code: 'not-kept' } });
    expect(JSON.stringify(answer)).not.toContain('secret');
    expect(reported).toHaveLength(1);
  });

  test('ends with 1009 at a frame that is far too long', async () => {
    const { raw } = await openWeb();
    const feed = raw('/feed?run=r1');
    await feed.opened;
    feed.send('x'.repeat(100_000));
    expect(await feed.closed).toBe(1009);
  });

  test('ends with 1008 after five seconds of more than 200 frames each', async () => {
    const { raw } = await openWeb();
    const feed = raw('/feed?run=r1');
    await feed.opened;
    const timer = setInterval(() => {
      if (feed.socket.readyState === feed.socket.OPEN)
        for (let n = 0; n < 30; n += 1) feed.send({ kind: 'tilt', deg: n });
    }, 50);
    expect(await feed.closed).toBe(1008);
    clearInterval(timer);
    expect(feed.told.every(({ ok }) => ok)).toBe(true);
  }, 15_000);

  test('answers a flood in its order too, what is over the limit with a refusal', async () => {
    const { raw } = await openWeb();
    const feed = raw('/feed?run=r1');
    await feed.opened;
    for (let n = 0; n < 1100; n += 1) feed.send({ kind: 'tilt', deg: 1, id: `${n}` });
    const answers = (await feed.answers(1100)) as { ok: boolean; id?: string; error?: { code: string } }[];
    const taken = answers.flatMap(({ ok, id }) => (ok ? [Number(id)] : []));
    expect(taken).toEqual(taken.toSorted((a, b) => a - b));
    expect(taken.length).toBeGreaterThanOrEqual(1000);
    for (const { ok, error } of answers) if (!ok) expect(error?.code).toBe('too-many');
  });

  test.each(['/feed', '/readout'])(
    '%s ends with 1008 after five seconds of pings',
    async (path) => {
      const { raw } = await openWeb();
      const pinging = raw(`${path}?run=r1`);
      await pinging.opened;
      const timer = setInterval(() => {
        if (pinging.socket.readyState === pinging.socket.OPEN) for (let n = 0; n < 30; n += 1) pinging.socket.ping();
      }, 50);
      expect(await pinging.closed).toBe(1008);
      clearInterval(timer);
    },
    30_000,
  );

  test.each([
    ['/feed?run=none', 404],
    ['/feed', 404],
    ['/readout?run=none', 404],
    ['/elsewhere?run=r1', 404],
  ])('%s is refused with %i', async (path, status) => {
    const { raw } = await openWeb();
    expect(await raw(path).refusedWith()).toBe(status);
  });
});

describe('/readout', () => {
  test('shows the guide at once, and a press as it happens with the call that it sets off', async () => {
    const { raw, ask } = await openWeb();
    const readout = raw('/readout?run=r1');
    expect(await readout.next()).toMatchObject({
      kind: 'guide',
      state: 'ready',
      targetDeg: 6,
      isFollowed: false,
      rateDegPerS: null,
      mark: 0,
      nextMark: 1,
      nextDeg: 6,
      etaMs: null,
      positionMm: null,
      uncertaintyMm: null,
    });
    await ask('/api/runs/r1/start', START);
    expect(await readout.next(({ kind }) => kind === 'call')).toMatchObject({ mark: 1, deg: 6 });
    const feed = raw('/feed?run=r1');
    await feed.opened;
    feed.send({ kind: 'pedal', id: 'p7' });
    expect(await readout.next(({ kind }) => kind === 'guide')).toMatchObject({ state: 'feeding' });
    expect(await readout.next(({ kind }) => kind === 'call')).toEqual({
      kind: 'call',
      id: 'c2',
      to: 'tilt hand',
      text: '7 degrees',
      mark: 2,
      deg: 7,
      startsInMs: 0,
      durationMs: 800,
      cause: 'p7',
    });
  });

  test('tells of calls to come and of calls taken back', async () => {
    const { raw, run } = await openWeb();
    const readout = raw('/readout?run=r1');
    await readout.next();
    run.call({ id: 'late', to: 'everyone', text: 'stop feed', startsAtMs: Date.now() + 5000, durationMs: 500 });
    const call = await readout.next(({ kind }) => kind === 'call');
    expect(call.startsInMs).toBeGreaterThan(3000);
    expect(call.startsInMs).toBeLessThanOrEqual(5000);
    expect(call).not.toHaveProperty('startsAtMs');
    run.cancel('late');
    expect(await readout.next(({ kind }) => kind === 'cancel')).toEqual({ kind: 'cancel', id: 'late' });
  });

  test('goes on showing the guide, with nothing happening', async () => {
    const { raw, ask } = await openWeb();
    const readout = raw('/readout?run=r1');
    for (let n = 0; n < 4; n += 1) expect(await readout.next()).toMatchObject({ kind: 'guide', state: 'ready' });
    await ask('/api/runs/r1/start', START);
    await readout.next(({ kind }) => kind === 'call');
    for (let n = 0; n < 20; n += 1) expect(await readout.next()).toMatchObject({ kind: 'guide', state: 'feeding' });
  });

  test('lets go of the run when it is closed', async () => {
    const { raw, run } = await openWeb();
    const one = raw('/readout?run=r1');
    const two = raw('/readout?run=r1');
    await Promise.all([one.next(), two.next()]);
    one.socket.close();
    await one.closed;
    await two.next();
    two.socket.close();
    await two.closed;
    await expect.poll(() => run.followers()).toBe(0);
  });
});
