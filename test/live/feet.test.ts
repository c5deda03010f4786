/** Pedals that tell only down and up. The run's clock is turned by hand, so that no busy machine makes a foot stay down. */
import { once } from 'node:events';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it, onTestFinished } from 'vitest';
import { WebSocketServer } from 'ws';
import { BOUNCE_MS, HOLD_MS } from '../../server/core/pedal/footKeptDown.ts';
import { phrases } from '../../server/core/words/phrases.ts';
import { openJournal } from '../../server/journal/openJournal.ts';
import { createFeet } from '../../server/live/feet.ts';
import { openLiveRun } from '../../server/live/liveRun.ts';
import { createTurns } from '../../server/web/fairTurns.ts';
import { feedSocket } from '../../server/web/sockets/feedSocket.ts';
import type { Answer } from '../../server/wire/message/messages.ts';
import { madeUpRun } from '../journal/madeUpRun.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { handOwnTime } from '../kit/handOwnTime.ts';
import { handTimer } from '../kit/handTimer.ts';
import { smallSetup } from '../kit/runSetup.ts';
import { RawClient } from '../web/openWeb.ts';

const down = { kind: 'pedal', gesture: 'down' } as const;
const up = { kind: 'pedal', gesture: 'up' } as const;

describe('feet by themselves', () => {
  /** What they make of the frames, by a timer that a test turns; a press is taken unless `isTaken` is false. */
  function underTest({ isTaken = true, throws = '', earlyMs = 0 } = {}) {
    const timer = handTimer();
    const made: string[] = [];
    const reported: unknown[] = [];
    const feet = createFeet({
      nowMs: timer.now,
      alarm: (atMs, work) => timer.after(Math.max(1, atMs - timer.now() - earlyMs), work),
      take(source, { gesture = 'next', id }) {
        made.push([source, gesture, ...(id === undefined ? [] : [id])].join(' '));
        if (gesture === throws) throw new Error(throws);
        return Promise.resolve(answerOf(isTaken));
      },
      seq: () => 7,
      isFed: () => true,
      report: (error) => reported.push(error),
    });
    return { timer, made, feet, reported };
  }
  const answerOf = (isTaken: boolean): Answer =>
    isTaken ? { ok: true, seq: 8 } : { ok: false, error: { code: 'not-feeding', message: '' } };

  it('a foot kept down is one press, taken back, and one stop; its up means nothing more', async () => {
    const { timer, made, feet } = underTest();
    await feet.take('a', { ...down, id: 'd' });
    timer.goOn(HOLD_MS - 1);
    expect(made).toEqual(['a next d']);
    timer.goOn(1);
    expect(made).toEqual(['a next d', 'a back d', 'a stop d']);
    expect(await feet.take('a', up)).toEqual({ ok: true, seq: 7 });
    timer.goOn(5000);
    expect(made).toHaveLength(3);
    expect(timer.waiting()).toBe(0);
  });

  it('a press that was refused is not taken back, and the stop is said although taking back fails', async () => {
    const refused = underTest({ isTaken: false });
    await refused.feet.take('a', down);
    refused.timer.goOn(HOLD_MS);
    expect(refused.made).toEqual(['a next', 'a stop']);
    const failing = underTest({ throws: 'back' });
    await failing.feet.take('a', down);
    failing.timer.goOn(HOLD_MS);
    expect(failing.made).toEqual(['a next', 'a back', 'a stop']);
    expect(failing.reported).toHaveLength(1);
  });

  it('a foot lifted in time and a worn switch are one press each', async () => {
    const { timer, made, feet } = underTest();
    await feet.take('a', down);
    timer.goOn(100);
    await feet.take('a', up);
    timer.goOn(BOUNCE_MS - 1);
    await feet.take('a', down);
    timer.goOn(100);
    await feet.take('a', up);
    timer.goOn(1000);
    expect(made).toEqual(['a next']);
  });

  it('a timer that rings too early is set again, not taken for the end of the wait', async () => {
    const { timer, made, feet } = underTest({ earlyMs: 5 });
    await feet.take('a', down);
    timer.goOn(HOLD_MS - 1);
    expect(made).toEqual(['a next']);
    timer.goOn(1);
    expect(made).toEqual(['a next', 'a back', 'a stop']);
  });

  it('two pedals do not know of each other', async () => {
    const { timer, made, feet } = underTest();
    await feet.take('a', down);
    timer.goOn(300);
    await feet.take('b', down);
    timer.goOn(100);
    await feet.take('b', up);
    timer.goOn(1000);
    expect(made).toEqual(['a next', 'b next', 'a back', 'a stop']);
  });

  it('a second down without an up between is refused in words: the foot was never lifted', async () => {
    const { made, feet } = underTest();
    await feet.take('a', down);
    expect(await feet.take('a', down)).toMatchObject({ ok: false, error: { code: 'down-already' } });
    expect(made).toEqual(['a next']);
  });

  it('frames that waited are judged by their ages, and the up is waited for', async () => {
    const { timer, made, feet } = underTest();
    timer.goOn(10_000);
    await feet.take('a', { ...down, ageMs: 3000 });
    timer.goOn(50);
    await feet.take('a', { ...up, ageMs: 2900 });
    await feet.take('a', { ...down, ageMs: 2000 });
    timer.goOn(50);
    await feet.take('a', { ...up, ageMs: 1000 });
    expect(made).toEqual(['a next', 'a next', 'a back', 'a stop']);
  });

  it('a pedal that goes with the foot down is a stop at once; lifted or held before, it is not', async () => {
    const { timer, made, feet } = underTest();
    for (const [source, untilMs] of [
      ['cut', 100],
      ['held', HOLD_MS],
    ] as const) {
      await feet.take(source, down);
      timer.goOn(untilMs);
      feet.closed(source);
    }
    await feet.take('lifted', down);
    await feet.take('lifted', up);
    feet.closed('lifted');
    feet.closed('unknown');
    timer.goOn(5000);
    expect(made).toEqual(['cut next', 'cut stop', 'held next', 'held back', 'held stop', 'lifted next']);
    expect(timer.waiting()).toBe(0);
  });

  it('whatever comes in: no press without a down, at most one stop behind each, and nothing waits at the end', () => {
    const moves = fc.array(
      fc.tuple(fc.constantFrom('down', 'up', 'closed'), fc.constantFrom('a', 'b'), fc.integer({ min: 0, max: 900 })),
      { maxLength: 30 },
    );
    fc.assert(
      fc.property(moves, (drawn) => {
        const { timer, made, feet } = underTest();
        for (const [move, source, afterMs] of drawn) {
          if (move === 'closed') feet.closed(source);
          else void feet.take(source, move === 'down' ? down : up);
          timer.goOn(afterMs);
        }
        feet.closed('a');
        feet.closed('b');
        for (const source of ['a', 'b']) {
          const count = (what: string): number => made.filter((each) => each === `${source} ${what}`).length;
          expect(count('next')).toBeLessThanOrEqual(
            drawn.filter(([move, from]) => move === 'down' && from === source).length,
          );
          expect(count('stop')).toBeLessThanOrEqual(count('next'));
          expect(count('back')).toBeLessThanOrEqual(count('stop'));
        }
        expect(timer.waiting()).toBe(0);
      }),
      { numRuns: 200 },
    );
  });
});

describe('a run whose pedal tells down and up', () => {
  function live() {
    const journal = openJournal({ file: join(freeDataDir(), 'journal.sqlite') });
    const stored = { ...madeUpRun('r1', 1_000_000), setup: smallSetup() };
    journal.keepRun(stored);
    const clock = { atMs: 1_000_000 };
    const needs = { journal, nowMs: () => clock.atMs, haveSeen: () => undefined, report: console.error };
    const run = openLiveRun({ ...needs, ownTime: handOwnTime().ownTime }, stored);
    const said: string[] = [];
    run.follow({ call: ({ text }) => said.push(text) });
    onTestFinished(() => {
      run.close();
      journal.close();
    });
    const gestures = () => [...run.lines()].flatMap((line) => (line.kind === 'pressed' ? [line.gesture] : []));
    return { run, said, clock, gestures };
  }

  /** The same run behind the true `/feed` of a real socket. */
  async function onFeed() {
    const here = live();
    const server = new WebSocketServer({ port: 0, host: '127.0.0.1', allowSynchronousEvents: false });
    const turns = createTurns(console.error);
    server.on('connection', (socket) =>
      feedSocket(socket, {
        run: here.run,
        source: 'feed:1',
        allowed: ['pedal'],
        turns,
        runTakes: () => true,
        report: console.error,
      }),
    );
    await once(server, 'listening');
    const feed = new RawClient(`ws://127.0.0.1:${(server.address() as AddressInfo).port}`, {}, undefined);
    onTestFinished(() => {
      feed.close();
      server.close();
    });
    await feed.opened;
    const say = async (frame: object) => {
      feed.send(frame);
      return await feed.next();
    };
    await here.run.command('start-without-sound');
    here.clock.atMs += 5000;
    return { ...here, feed, say };
  }

  it('counts a short one once, bounces and all, and tells each frame that it was taken', async () => {
    const { run, clock, gestures, say } = await onFeed();
    expect(await say({ ...down, id: 'd1' })).toMatchObject({ ok: true, id: 'd1', seq: expect.any(Number) });
    expect(run.view()).toMatchObject({ state: 'feeding', mark: 1 });
    clock.atMs += 5;
    expect(await say({ ...up, id: 'u1' })).toMatchObject({ ok: true, id: 'u1', seq: run.view().seq });
    clock.atMs += 5;
    expect(await say({ ...down, id: 'd2' })).toMatchObject({ ok: true, id: 'd2', seq: run.view().seq });
    clock.atMs += 100;
    expect(await say(up)).toMatchObject({ ok: true });
    clock.atMs += 5000;
    await say(down);
    clock.atMs += 100;
    await say(up);
    expect(run.view()).toMatchObject({ state: 'feeding', mark: 2 });
    expect(gestures()).toEqual(['next', 'next']);
  });

  it('is stopped by a foot that stays down, and the press is taken back', async () => {
    const { run, said, clock, gestures, say } = await onFeed();
    await say({ ...down, id: 'd1' });
    clock.atMs += HOLD_MS;
    await expect.poll(() => run.view().state, { timeout: 20_000 }).toBe('stopped');
    expect(run.view().mark).toBe(0);
    expect(gestures()).toEqual(['next', 'back', 'stop']);
    expect(said.at(-1)).toBe(phrases.stopFeed);
    expect(await say(up)).toMatchObject({ ok: true });
    clock.atMs += 1000;
    expect(await say({ ...down, id: 'd2' })).toMatchObject({ ok: false, id: 'd2', error: { code: 'not-feeding' } });
  });

  it('is stopped when the connection goes with the foot down, and the press stands', async () => {
    const { run, feed, gestures, say } = await onFeed();
    await say(down);
    feed.close();
    await expect.poll(() => run.view().state, { timeout: 20_000 }).toBe('stopped');
    expect(run.view().mark).toBe(1);
    expect(gestures()).toEqual(['next', 'stop']);
  });

  it('begins again, and is stopped, where the foot stays down at the last mark', async () => {
    const { run, clock, gestures, say } = await onFeed();
    for (let mark = 1; mark < 5; mark += 1) {
      await say({ kind: 'pedal' });
      clock.atMs += 5000;
    }
    await say(down);
    expect(run.view().state).toBe('finished');
    clock.atMs += HOLD_MS;
    await expect.poll(() => run.view().state, { timeout: 20_000 }).toBe('stopped');
    expect(run.view().mark).toBe(4);
    expect(gestures().slice(-3)).toEqual(['next', 'back', 'stop']);
  });

  it('is not stopped by a connection that goes because the server ends', async () => {
    const { run, say, gestures } = await onFeed();
    await say(down);
    run.rest();
    run.sourceClosed('feed:1');
    expect(gestures()).toEqual(['next']);
  });
});
