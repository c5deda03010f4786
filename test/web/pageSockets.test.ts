import { describe, expect, test } from 'vitest';
import type { Guide } from '../../server/core/run/view/guide.ts';
import type { Answer, Joined, RunView } from '../../server/wire/message/messages.ts';
import { openWeb } from './openWeb.ts';

type Page = ReturnType<Awaited<ReturnType<typeof openWeb>>['page']>;

const join = (page: Page, run = 'r1', role: 'sawyer' | 'wheel' = 'wheel'): Promise<Joined> =>
  page.emitWithAck('join', { run, role });
const first = <T>(
  page: Page,
  event: 'view' | 'guide' | 'call' | 'cancel' | 'notice' | 'beat',
  fits = (_told: T) => true,
) =>
  new Promise<T>((resolve) => {
    page.on(event, ((told: T) => {
      if (fits(told)) resolve(told);
    }) as () => void);
  });
/** As a page that is not ours might send it. */
const send = (page: Page, event: string, ...rest: unknown[]): Promise<unknown> =>
  (page as unknown as { emitWithAck(event: string, ...rest: unknown[]): Promise<unknown> }).emitWithAck(event, ...rest);

describe('a page', () => {
  test('joins, gets the run, the plan and the clips, and follows what happens', async () => {
    const { page, run } = await openWeb();
    const wheel = page();
    const joined = await join(wheel);
    expect(joined).toMatchObject({ ok: true, view: { run: 'r1', state: 'ready' }, plan: { title: 'Frame 3, port' } });
    expect(joined.ok && joined.clips).toHaveLength(1);

    const feeding = first<RunView>(wheel, 'view', ({ state }) => state === 'feeding');
    const call = first<{ mark: number; startsAtMs: number }>(wheel, 'call');
    const guide = first<Guide>(wheel, 'guide', ({ state }) => state === 'feeding');
    expect(await wheel.emitWithAck('command', 'start')).toEqual({ ok: true, seq: 1 });
    expect(await feeding).toMatchObject({ nextMark: 1 });
    expect((await call).startsAtMs).toBeGreaterThan(1e12);
    expect((await guide).targetDeg).toBe(6);
    const notice = first(wheel, 'notice');
    const cancel = first(wheel, 'cancel');
    run.notice({ code: 'mark-skipped', message: 'mark 2 was skipped', mark: 2 });
    run.cancel('c1');
    expect([await notice, await cancel]).toEqual([
      { code: 'mark-skipped', message: 'mark 2 was skipped', mark: 2 },
      'c1',
    ]);
    expect(await wheel.emitWithAck('reading', { kind: 'pedal' })).toEqual({ ok: true, seq: 2 });
  });

  test('hears again and again that the server is there, and can ask its time', async () => {
    const { page } = await openWeb();
    const sawyer = page();
    const before = Date.now();
    expect(await sawyer.emitWithAck('clock')).toBeGreaterThanOrEqual(before);
    const beats: number[] = [];
    sawyer.on('beat', (serverMs) => beats.push(serverMs));
    await expect.poll(() => beats.length, { timeout: 30_000 }).toBeGreaterThan(2);
    expect(beats[0]).toBeGreaterThanOrEqual(before);
    expect(beats).toEqual(beats.toSorted((a, b) => a - b));
  });

  test('tells the run what it hears and could not play, in the role that it joined in; and that it is gone', async () => {
    const { page, run } = await openWeb();
    const wheel = page();
    await join(wheel);
    wheel.emit('hearing', { id: 'tablet', label: 'By the wheel', role: 'sawyer', hearing: 'confirmed' });
    wheel.emit('unplayed', { id: 'c1', reason: 'it came too late' });
    await wheel.emitWithAck('clock');
    const name = run.heard.hearing[0]?.page;
    expect(run.heard.hearing).toEqual([
      { page: name, listener: { id: 'tablet', label: 'By the wheel', role: 'wheel', hearing: 'confirmed' } },
    ]);
    expect(run.heard.unplayed).toEqual([{ page: name, id: 'c1', reason: 'it came too late' }]);
    wheel.disconnect();
    await expect.poll(() => run.heard.hearing.at(-1)).toEqual({ page: name, listener: null });
    expect(run.heard.closed).toEqual([name]);
    await expect.poll(() => run.followers()).toBe(0);
  });

  test('that falls silent with the very words that it hears has given a sign of life, so that its silence counts', async () => {
    const { page, run } = await openWeb();
    const wheel = page();
    await join(wheel);
    wheel.emit('hearing', { id: 'tablet', label: 'By the wheel', role: 'wheel', hearing: 'confirmed' });
    // It answers no ping any more, and its connection stands.
    const { ws } = wheel.io.engine.transport as unknown as { ws: { pause(): void; resume(): void } };
    ws.pause();
    await expect.poll(() => run.heard.hearing.length).toBe(1);
    expect(run.heard.alive).toContainEqual({ page: run.heard.hearing[0]?.page, told: 1 });
    ws.resume();
  });

  test('gets an answer to everything, whatever it sends', async () => {
    const { page, run } = await openWeb();
    const odd = page();
    const pedal = { kind: 'pedal' };
    const notJoined = { ok: false, error: { code: 'not-joined' } };
    expect(await send(odd, 'reading', pedal)).toMatchObject(notJoined);
    expect(await send(odd, 'command', 'start')).toMatchObject(notJoined);
    expect(await send(odd, 'hearing', { id: 'a', label: '', role: 'wheel', hearing: 'silent' })).toMatchObject(
      notJoined,
    );
    expect(await join(odd, 'none')).toMatchObject({ ok: false, error: { code: 'no-such-run' } });
    await join(odd);
    for (const [event, ...sent] of [
      ['join'],
      ['join', null],
      ['join', { run: 'r1', role: 'owner' }],
      ['join', { run: 'r1', role: 'wheel', more: 1 }],
      ['reading'],
      ['reading', 'pedal'],
      ['reading', { kind: 'pedal', gesture: 'twice' }],
      ['reading', { kind: 'travel', mm: null }],
      ['command', 'explode'],
      ['command', ['start']],
      ['hearing', { id: 'a' }],
      ['unplayed', { id: 'c1', reason: 'x'.repeat(500) }],
    ] as [string, ...unknown[]][])
      expect([event, sent, await send(odd, event, ...sent)]).toMatchObject([
        event,
        sent,
        { ok: false, error: { code: 'bad-shape' } },
      ]);
    expect(await send(odd, 'clock', 'now')).toBeTypeOf('number');
    odd.emit('reading', undefined as never, undefined as never);
    expect(((await send(odd, 'reading', pedal)) as Answer).ok).toBe(false);
    expect(run.heard.hearing).toEqual([]);
    expect(odd.connected).toBe(true);
  });

  test('is told when the server could not do what it asked, and nothing of why', async () => {
    const { page, run, reported } = await openWeb();
    const sawyer = page();
    await join(sawyer, 'r1', 'sawyer');
    run.breakDown();
    const answer = await sawyer.emitWithAck('command', 'start');
    expect(answer).toMatchObject({ ok: false, error: { code: 'failed' } });
    expect(JSON.stringify(answer)).not.toContain('secret');
    expect(reported).toHaveLength(1);
  });

  test('leaves one run for another', async () => {
    const { page, run } = await openWeb();
    const wheel = page();
    await join(wheel);
    const before = run.followers();
    await join(wheel, 'r1', 'sawyer');
    expect(run.followers()).toBe(before);
    expect(run.heard.hearing.at(-1)?.listener).toBeNull();
  });

  test('that joins over and over is told so, and stays in its run', async () => {
    const { page, run } = await openWeb();
    const wheel = page();
    const told = await Promise.all(Array.from({ length: 40 }, () => join(wheel)));
    expect(told[0]?.ok).toBe(true);
    expect(told.flatMap((each) => (each.ok ? [] : [each.error.code]))).toContain('too-many');
    expect(run.followers()).toBeGreaterThan(0);
    expect(await wheel.emitWithAck('reading', { kind: 'tilt', deg: 1 })).toMatchObject({ ok: true });
  });

  test('is not let in by long polling', async () => {
    const { ask } = await openWeb();
    expect((await ask('/socket.io/?EIO=4&transport=polling')).status).toBe(400);
  });
});
