import { join } from 'node:path';
import { expect, it } from 'vitest';
import type { Call, Notice } from '../../server/core/run/engine/events.ts';
import { phrases } from '../../server/core/words/phrases.ts';
import { openJournal } from '../../server/journal/openJournal.ts';
import { openLiveRun } from '../../server/live/liveRun.ts';
import { madeUpRun } from '../journal/madeUpRun.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { handOwnTime } from '../kit/handOwnTime.ts';
import { smallSetup } from '../kit/runSetup.ts';

/** A live run on a real journal; `wall` is a clock that the test may set back. */
function live(file = join(freeDataDir(), 'journal.sqlite'), wall = { aheadMs: 0 }) {
  const journal = openJournal({ file });
  const stored = { ...madeUpRun('r1', Date.now()), setup: smallSetup() };
  if (journal.run('r1') === undefined) journal.keepRun(stored);
  let behindMs = 0;
  const nowMs = (): number => performance.timeOrigin + performance.now() + wall.aheadMs + behindMs;
  const haveSeen = (atMs: number): void => {
    behindMs += Math.max(0, atMs - nowMs());
  };
  const { ownTime, beat, standStill } = handOwnTime();
  const run = openLiveRun({ journal, nowMs, haveSeen, report: console.error, ownTime }, journal.run('r1') ?? stored);
  const said: Call[] = [];
  const told: Notice[] = [];
  run.follow({ call: (call) => said.push(call), notice: (notice) => told.push(notice) });
  return { file, journal, run, said, told, nowMs, wall, beat, standStill };
}
const pedal = { kind: 'pedal' } as const;
const later = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms));

it('says aloud that nothing is kept any more, calls nothing further, and still takes a stop', async () => {
  const { journal, run, said, told } = live();
  await run.command('start');
  await run.reading('foot', pedal);
  journal.close();
  const answer = await run.reading('foot', pedal);
  expect(answer).toMatchObject({ ok: false, error: { code: 'not-kept' } });
  expect(said.at(-1)?.text).toBe(phrases.signalLost);
  expect(told.at(-1)?.code).toBe('not-kept');
  expect(run.view()).toMatchObject({ state: 'lost', mark: 1, notice: { code: 'not-kept' } });
  const stop = await run.reading('foot', { kind: 'pedal', gesture: 'stop' });
  expect(stop).toEqual({ ok: true, kept: false });
  expect(await run.command('stop-feed')).toEqual({ ok: true, kept: false });
  expect(await run.command('resume')).toMatchObject({ ok: false, error: { code: 'not-kept' } });
  expect(said.at(-1)?.text).toBe(phrases.stopFeed);
  expect(run.view().state).toBe('stopped');
});

it('goes on in the right order of time on a machine whose clock was set back', async () => {
  const first = live();
  await first.run.command('start');
  await first.run.reading('foot', pedal);
  first.run.close();
  first.journal.close();
  const { run, said, nowMs, journal } = live(first.file, { aheadMs: -3_600_000 });
  expect(run.view()).toMatchObject({ state: 'stopped', mark: 1 });
  await run.command('resume');
  expect(Math.abs((said.at(-1)?.startsAtMs ?? 0) - nowMs())).toBeLessThan(1000);
  const times = [...run.lines()].map(({ atMs }) => atMs);
  expect(times).toEqual(times.toSorted((a, b) => a - b));
  run.close();
  journal.close();
});

it('is lost when the last pedal falls away, not when one of two does, and not when it comes back at once', async () => {
  const { run } = live();
  await run.command('start');
  await run.reading('one', pedal);
  await run.reading('two', pedal);
  run.sourceClosed('one');
  await later(400);
  expect(run.view().state).toBe('feeding');
  run.sourceClosed('two');
  await run.reading('three', pedal);
  await later(400);
  expect(run.view().state).toBe('feeding');
  run.sourceClosed('three');
  await later(400);
  expect(run.view().state).toBe('lost');
});

it('takes the delay of the slowest ear at the handwheel into the lead, and tells it to nobody else', async () => {
  const { run, wall, beat } = live();
  const ear = (id: string, role: 'wheel' | 'sawyer', delayMs: number, hearing: 'silent' | 'confirmed' = 'confirmed') =>
    run.hearing(id, { id, label: id, role, hearing, delayMs });
  const delays = (): number[] =>
    [...run.lines()].flatMap((line) => (line.kind === 'heard-after' ? [line.delayMs] : []));
  ear('a', 'wheel', 120, 'silent');
  expect(delays()).toEqual([]);
  ear('a', 'wheel', 120);
  ear('b', 'sawyer', 300);
  ear('c', 'wheel', 180);
  ear('c', 'wheel', 182);
  run.hearing('c', null);
  expect(delays()).toEqual([120, 180]);
  wall.aheadMs += 1400;
  beat();
  expect(delays()).toEqual([120, 180, 120]);
  expect([...run.lines()].filter(({ kind }) => kind === 'listener')).toHaveLength(5);
});

it('does not write down lost listeners when it is the server that ends', async () => {
  const { run } = live();
  run.hearing('a', { id: 'a', label: 'a', role: 'wheel', hearing: 'confirmed' });
  await run.command('start');
  run.rest();
  run.hearing('a', null);
  expect([...run.lines()].some(({ kind }) => kind === 'signal-lost')).toBe(false);
  expect(run.view().state).toBe('feeding');
});

it('is lost when the server stood still while it fed, and not when it stood stopped', async () => {
  const { run, said, standStill } = live();
  await run.command('start');
  await run.reading('foot', pedal);
  standStill(3000);
  expect(run.view()).toMatchObject({ state: 'lost', lost: 'server', takesPress: false });
  expect(said.at(-1)?.text).toBe(phrases.signalLost);
  expect(await run.reading('foot', pedal)).toMatchObject({ ok: false, error: { code: 'not-feeding' } });
  await run.command('stop-feed');
  standStill(3000);
  expect(run.view()).toMatchObject({ state: 'stopped', mark: 1 });
});

it('asks for a confirmed ear, or a word that it goes on unheard, before it is resumed', async () => {
  const { run } = live();
  const ear = (hearing: 'confirmed' | 'suspended'): void =>
    run.hearing('a', { id: 'a', label: 'Wheel', role: 'wheel', hearing });
  ear('confirmed');
  await run.command('start');
  ear('suspended');
  expect(run.view()).toMatchObject({ state: 'lost', lost: 'sound', takesPress: false });
  expect(await run.reading('foot', pedal)).toMatchObject({ ok: false, error: { code: 'not-feeding' } });
  expect(await run.command('resume')).toMatchObject({ ok: false, error: { code: 'sound-not-confirmed' } });
  expect(await run.command('resume-without-sound')).toMatchObject({ ok: true });
  expect(run.view().state).toBe('feeding');
});

it('knows after a restart that nobody who heard it is back yet', async () => {
  const first = live();
  first.run.hearing('a', { id: 'a', label: 'Wheel', role: 'wheel', hearing: 'confirmed' });
  await first.run.command('start');
  first.run.rest();
  first.run.close();
  first.journal.close();
  const { run } = live(first.file);
  expect(await run.command('resume')).toMatchObject({ ok: false, error: { code: 'nobody-hears' } });
  run.hearing('b', { id: 'a', label: 'Wheel', role: 'wheel', hearing: 'confirmed' });
  expect(await run.command('resume')).toMatchObject({ ok: true });
});

it('takes its last mark back after a restart only where somebody hears it again', async () => {
  const first = live();
  first.run.hearing('a', { id: 'a', label: 'Wheel', role: 'wheel', hearing: 'confirmed' });
  await first.run.command('start');
  const last = first.run.plan.leads === 'head' ? 1 : first.run.view().marks;
  await first.run.reading('reader', { kind: 'mark', mark: last });
  expect(first.run.view().state).toBe('finished');
  first.run.rest();
  first.run.close();
  first.journal.close();
  const { run } = live(first.file);
  const back = { kind: 'pedal', gesture: 'back' } as const;
  expect(await run.reading('foot', back)).toMatchObject({ ok: false, error: { code: 'not-feeding' } });
  expect(run.view().state).toBe('finished');
  run.hearing('b', { id: 'a', label: 'Wheel', role: 'wheel', hearing: 'confirmed' });
  expect(await run.reading('foot', back)).toMatchObject({ ok: true });
  expect(run.view().state).toBe('feeding');
});

/** A run that one listener hears. */
async function heard() {
  const here = live();
  const { run } = here;
  const ear = (page: string, hearing: 'loading' | 'confirmed' = 'confirmed'): void =>
    run.hearing(page, { id: 'tablet', label: 'Wheel', role: 'wheel', hearing });
  const bevels = (): (number | undefined)[] => here.said.flatMap(({ deg, mark }) => (deg === undefined ? [] : [mark]));
  const pass = (ms: number): void => {
    here.wall.aheadMs += ms;
    here.beat();
  };
  ear('one');
  await run.command('start');
  return { ...here, ear, bevels, pass };
}

it('goes on where its only listener comes back within the time, and says again what was called meanwhile', async () => {
  const { run, ear, bevels, pass } = await heard();
  run.hearing('one', null);
  pass(100);
  ear('two');
  expect(run.view()).toMatchObject({ state: 'feeding', listeners: [{ id: 'tablet' }] });
  run.hearing('two', null);
  pass(400);
  await run.reading('foot', pedal);
  expect(bevels()).toEqual([1, 2]);
  ear('three');
  expect(bevels()).toEqual([1, 2, 2]);
  pass(5000);
  expect(run.view()).toMatchObject({ state: 'feeding', mark: 1 });
  expect([...run.lines()].filter(({ kind }) => kind === 'listener')).toHaveLength(1);
});

it('is lost where the listener stays away for 1.3 s, or a call finds it gone for half a second', async () => {
  const away = await heard();
  away.run.hearing('one', null);
  away.pass(1250);
  expect(away.run.view().state).toBe('feeding');
  away.pass(100);
  expect(away.run.view()).toMatchObject({ state: 'lost', lost: 'sound', listeners: [] });
  const called = await heard();
  called.run.hearing('one', null);
  called.pass(600);
  expect(called.run.view().state).toBe('feeding');
  await called.run.reading('foot', pedal);
  expect(called.run.view()).toMatchObject({ state: 'lost', mark: 1 });
  expect(called.said.at(-1)?.text).toBe(phrases.signalLost);
});

it('is lost by a page that gives no sign of life, though its connection stands, and has it back by the first', async () => {
  const { run, pass } = await heard();
  run.alive('one');
  pass(1250);
  run.alive('one');
  pass(1250);
  expect(run.view().state).toBe('feeding');
  pass(100);
  expect(run.view()).toMatchObject({ state: 'lost', listeners: [] });
  run.alive('one');
  expect(run.view().listeners).toHaveLength(1);
  expect(await run.command('resume')).toMatchObject({ ok: true });
});

it('says a call again that its only ear could not play, and is lost where that never helps', async () => {
  const { run, said, bevels, told } = await heard();
  const unplayed = (): void => run.unplayed('one', { id: said.at(-1)?.id ?? '', reason: '800 ms late' });
  unplayed();
  expect([bevels(), told]).toEqual([[1, 1], []]);
  for (let i = 0; i < 3; i += 1) unplayed();
  expect(run.view()).toMatchObject({ state: 'lost', lost: 'sound' });
});

it('forgives its listeners the time for which the server itself stood still', async () => {
  const { run, wall, beat, standStill } = await heard();
  run.alive('one');
  wall.aheadMs += 5000;
  standStill(5000);
  beat();
  expect(run.view()).toMatchObject({ state: 'lost', lost: 'server', listeners: [{ id: 'tablet' }] });
});

it('does not say a call again that another ear has heard', async () => {
  const { run, said, bevels, told } = await heard();
  run.hearing('two', { id: 'phone', label: 'Sawyer', role: 'sawyer', hearing: 'confirmed' });
  run.unplayed('one', { id: said.at(-1)?.id ?? '', reason: '800 ms late' });
  expect([bevels(), told]).toMatchObject([[1], [{ code: 'call-missed' }]]);
  run.unplayed('two', { id: said.at(-1)?.id ?? '', reason: '800 ms late' });
  expect(bevels()).toEqual([1, 1]);
});
