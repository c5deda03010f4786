import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { findFilePlayers } from '../../audio/players/filePlayers.ts';
import { findSayPlayer } from '../../audio/players/sayPlayer.ts';
import { runProgram } from '../../audio/runProgram.ts';
import { createLoudspeaker, type SpokenRun } from '../../audio/serverLoudspeaker.ts';
import type { Call } from '../../server/core/run/engine/events.ts';
import { phrases } from '../../server/core/words/phrases.ts';
import type { Clip, Listener } from '../../server/wire/message/messages.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { onPath, type StandIn, standIn } from './standIn.ts';

const nowMs = (): number => performance.timeOrigin + performance.now();
const CLIPS: readonly Clip[] = ['four', 'five', phrases.stopFeed].map((text) => ({
  text,
  url: `/api/clips/${text}.wav`,
  durationMs: 200,
}));

/** What a loudspeaker needs of a run, and what reaches it. */
function aRun(run = 'r1', clips = CLIPS) {
  const heard: (Listener | null)[] = [];
  const unplayed: { id: string; reason: string }[] = [];
  let follower: Parameters<SpokenRun['follow']>[0] | undefined;
  const spoken: SpokenRun = {
    run,
    clips,
    isFinished: () => false,
    hearing: (_page, listener) => void heard.push(listener),
    unplayed: (_page, told) => void unplayed.push(told),
    follow(given) {
      follower = given;
      return () => {
        follower = undefined;
      };
    },
  };
  let calls = 0;
  return {
    spoken,
    unplayed,
    last: () => heard.at(-1),
    say(text: string, inMs = 0): string {
      calls += 1;
      const id = `c${calls}`;
      const call: Call = { id, to: 'tilt hand', text, startsAtMs: nowMs() + inMs, durationMs: 200 };
      follower?.call(call);
      return id;
    },
    cancel: (id: string) => follower?.cancel(id),
  };
}

function aLoudspeaker(...players: readonly StandIn[]) {
  const folder = freeDataDir();
  const fileOf = (text: string): string => {
    const file = join(folder, `${text}.wav`);
    writeFileSync(file, 'RIFF');
    return file;
  };
  const loudspeaker = createLoudspeaker({
    players: findFilePlayers(players.map(({ path }) => path).join(':')),
    nowMs,
    fileOf: async ({ text }) => fileOf(text),
    testWords: async () => ({ text: phrases.soundTest, file: fileOf('test'), durationMs: 5 }),
  });
  onTestFinished(() => loudspeaker.close());
  return { loudspeaker, fileOf };
}

describe('as a listener', () => {
  test('it is listed from the moment that it joins, and confirmed once its test words were heard', async () => {
    const aplay = standIn('aplay');
    const { loudspeaker, fileOf } = aLoudspeaker(aplay);
    const run = aRun();
    loudspeaker.join(run.spoken);
    expect(run.last()).toMatchObject({ role: 'wheel', hearing: 'loading', label: 'Server’s loudspeaker' });
    await expect.poll(() => run.last()?.hearing).toBe('silent');
    expect(loudspeaker.confirm()).toMatchObject({ ok: false, error: { code: 'not-tested' } });
    const tested = await loudspeaker.test();
    expect(tested).toMatchObject({ player: 'aplay', hearing: 'silent', tested: true, why: null });
    expect(loudspeaker.confirm()).toMatchObject({ ok: true });
    expect(run.last()).toMatchObject({ hearing: 'confirmed', delayMs: tested.delayMs });
    expect(tested.delayMs).toBeGreaterThan(0);
    expect(aplay.given()).toMatchObject([{ args: ['-q', fileOf('test')], input: '' }]);
    // A run that is made afterwards finds it confirmed.
    const next = aRun('r2');
    loudspeaker.join(next.spoken);
    await expect.poll(() => next.last()?.hearing).toBe('confirmed');
  });

  test('a player that fails is told, listed as deaf, and the next one is tried', async () => {
    const paplay = standIn('paplay');
    const aplay = standIn('aplay');
    paplay.behave('fails');
    const { loudspeaker } = aLoudspeaker(aplay, paplay);
    expect(loudspeaker.state().player).toBe('paplay');
    expect(await loudspeaker.test()).toMatchObject({ player: 'aplay', tested: true, why: null });

    const run = aRun();
    loudspeaker.join(run.spoken);
    loudspeaker.confirm();
    await expect.poll(() => run.last()?.hearing).toBe('confirmed');
    aplay.behave('fails');
    const id = run.say('four');
    await expect.poll(() => run.unplayed).toEqual([{ id, reason: expect.stringMatching(/^aplay: audio open error/) }]);
    expect(run.last()).toMatchObject({ hearing: 'suspended', label: 'Server’s loudspeaker (aplay, failed)' });
    expect(loudspeaker.confirm()).toMatchObject({ ok: false });
    expect(await loudspeaker.test()).toMatchObject({
      hearing: 'suspended',
      why: expect.stringMatching(/paplay.*aplay/),
    });
    aplay.behave('ends');
    expect(await loudspeaker.test()).toMatchObject({ hearing: 'silent', why: null });
  });

  test('a clip that cannot be had is told before anything starts', async () => {
    const loudspeaker = createLoudspeaker({
      players: findFilePlayers(standIn('aplay').path),
      nowMs,
      fileOf: async () => undefined,
      testWords: async () => ({ text: '', file: '', durationMs: 0 }),
    });
    const run = aRun();
    loudspeaker.join(run.spoken);
    await expect.poll(() => run.last()?.hearing).toBe('suspended');
    expect(loudspeaker.state().why).toBe('no clip says "four"');
    loudspeaker.close();
  });
});

describe('what it says', () => {
  async function ready(manner: 'ends' | 'sounds' = 'sounds') {
    const aplay = standIn('aplay');
    aplay.behave(manner);
    const { loudspeaker, fileOf } = aLoudspeaker(aplay);
    const run = aRun();
    loudspeaker.join(run.spoken);
    await expect.poll(() => run.last()?.hearing).toBe('silent');
    return { aplay, loudspeaker, run, fileOf };
  }

  test('one at a time; a stop kills what is playing at once, and all that it has started', async () => {
    const { aplay, run, fileOf } = await ready();
    run.say('four');
    await expect.poll(() => aplay.alive()).toHaveLength(2);
    const id = run.say('five');
    await expect.poll(() => aplay.given().map(({ args }) => args[1])).toEqual([fileOf('four'), fileOf('five')]);
    expect(aplay.alive()).toHaveLength(2);
    const cutMs = performance.now();
    run.cancel('c1');
    expect(aplay.alive()).toHaveLength(2);
    run.cancel(id);
    while (aplay.alive().length > 0 && performance.now() - cutMs < 2000) await new Promise(setImmediate);
    expect(aplay.alive()).toEqual([]);
    // Nobody says that a call that was cut off has failed.
    expect(run.unplayed).toEqual([]);
    expect(run.last()?.hearing).toBe('silent');
  });

  test('begins when it is due, not before; taken back before that, it is never begun', async () => {
    const { aplay, run } = await ready('ends');
    const id = run.say('four', 250);
    run.cancel(id);
    const dueMs = Date.now() + 300;
    run.say('five', 300);
    await expect.poll(() => aplay.given()).toHaveLength(1);
    expect(Date.now()).toBeGreaterThanOrEqual(dueMs);
    expect(aplay.given()[0]?.args[1]).toMatch(/five\.wav$/);
  });

  test('not what is late, not what it has no clip of, not two runs at once: each is told', async () => {
    const { aplay, run, loudspeaker } = await ready();
    run.say('four', -400);
    run.say('something else');
    run.say('four');
    await expect.poll(() => aplay.given()).toHaveLength(1);
    const other = aRun('r2');
    loudspeaker.join(other.spoken);
    await expect.poll(() => other.last()?.hearing).toBe('silent');
    other.say('five');
    expect(other.unplayed).toMatchObject([{ reason: 'the loudspeaker speaks for another run' }]);
    expect(run.unplayed.map(({ reason }) => reason)).toEqual([
      expect.stringMatching(/^\d+ ms late$/),
      'no clip says "something else"',
    ]);
  });

  test('a call cuts off the test words; nothing is held against the player for it', async () => {
    const { aplay, run, loudspeaker } = await ready();
    const testing = loudspeaker.test();
    await expect.poll(() => aplay.alive()).toHaveLength(2);
    run.say('four');
    expect(await testing).toMatchObject({ hearing: 'silent', why: null });
    await expect.poll(() => aplay.given()).toHaveLength(2);
  });

  test('a close leaves nothing running', async () => {
    const { aplay, run, loudspeaker } = await ready();
    run.say('four');
    await expect.poll(() => aplay.alive()).toHaveLength(2);
    loudspeaker.close();
    await expect.poll(() => aplay.alive()).toEqual([]);
  });
});

describe('a program', () => {
  test('that is stuck is killed and told; one that is not there is told', async () => {
    const stuck = standIn('aplay');
    stuck.behave('sounds');
    const run = runProgram({ path: join(stuck.path, 'aplay'), args: [], timeoutMs: 300 });
    expect(await run.ended).toMatch(/took longer/);
    await expect.poll(() => stuck.alive()).toEqual([]);
    expect(await runProgram({ path: '/nowhere/aplay', args: [], timeoutMs: 300 }).ended).toMatch(/ENOENT/);
  });

  test('is not looked for where the server happens to have been started', () => {
    const { path } = standIn('aplay');
    const before = process.cwd();
    process.chdir(path);
    onTestFinished(() => process.chdir(before));
    for (const relative of ['', '.', '::', './']) expect(findFilePlayers(relative)).toEqual([]);
    expect(findFilePlayers(path).map(({ name }) => name)).toEqual(['aplay']);
  });
});

describe('the machine’s voice, where nothing plays files', () => {
  const spoken = (text: string) => ({ text, file: '/nowhere.wav', durationMs: 100 });

  test('speaks the words of the program, and is silenced with its grandchildren', async () => {
    const festival = standIn('festival');
    onPath(festival.path);
    const player = findSayPlayer('linux', festival.path);
    expect(await player?.play(spoken('one two point five')).ended).toBeNull();
    expect(festival.given()).toMatchObject([{ args: ['--pipe'], input: '(SayText "one two point five")' }]);
    festival.behave('sounds');
    const playing = player?.play(spoken(phrases.stopFeed));
    await expect.poll(() => festival.alive()).toHaveLength(2);
    playing?.stop();
    expect(await playing?.ended).toBe('stopped');
    await expect.poll(() => festival.alive()).toEqual([]);
  });

  test('failing, or gone since it was found, it is told and takes nobody down', async () => {
    const festival = standIn('festival');
    festival.behave('fails');
    onPath(festival.path);
    const player = findSayPlayer('linux', festival.path);
    expect(await player?.play(spoken('four')).ended).toMatch(/audio open error/);
    process.env.PATH = '/nowhere';
    expect(await player?.play(spoken('four')).ended).toMatch(/ENOENT/);
    expect(findSayPlayer('linux', '/nowhere')).toBeUndefined();
    expect(findSayPlayer('win32')).toBeUndefined();
  });
});
