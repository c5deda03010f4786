/** What is told of what did not happen in the run itself: shown to everyone, kept in the record, and gone when it is over. */
import { join } from 'node:path';
import { expect, it } from 'vitest';
import type { Notice } from '../../server/core/run/engine/events.ts';
import { openJournal } from '../../server/journal/openJournal.ts';
import { openLiveRun } from '../../server/live/liveRun.ts';
import type { RunView } from '../../server/wire/message/messages.ts';
import { madeUpRun } from '../journal/madeUpRun.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { handOwnTime } from '../kit/handOwnTime.ts';
import { smallSetup } from '../kit/runSetup.ts';

/** A live run on a real journal, by a clock that the test turns. */
function live() {
  const journal = openJournal({ file: join(freeDataDir(), 'journal.sqlite') });
  const stored = { ...madeUpRun('r1', 1_000_000), setup: smallSetup({ fastestMPerMin: 3 }) };
  journal.keepRun(stored);
  const clock = { atMs: 1_000_000 };
  const run = openLiveRun(
    {
      journal,
      nowMs: () => clock.atMs,
      haveSeen: () => undefined,
      report: console.error,
      ownTime: handOwnTime().ownTime,
    },
    journal.run('r1') ?? stored,
  );
  const told: Notice[] = [];
  const cut: string[] = [];
  const shown: RunView[] = [];
  run.follow({
    notice: (notice) => told.push(notice),
    cancel: (id) => cut.push(id),
    view: (view) => shown.push(view),
  });
  const press = (afterMs: number) => {
    clock.atMs += afterMs;
    return run.reading('foot', { kind: 'pedal' });
  };
  return { run, told, cut, shown, press, kinds: () => [...run.lines()].map(({ kind }) => kind) };
}

it('a hasty press reaches everyone and the record, cuts nothing off, and goes with the next true one', async () => {
  const { run, told, cut, shown, press, kinds } = live();
  await run.command('start-without-sound');
  await press(5000);
  const before = cut.length;
  expect(await press(250)).toMatchObject({ ok: false, error: { code: 'too-soon' } });
  expect(told).toMatchObject([{ code: 'too-soon', mark: 2 }]);
  expect(shown.at(-1)).toMatchObject({ state: 'feeding', mark: 1, notice: { code: 'too-soon' } });
  expect(cut).toHaveLength(before);
  expect(kinds().filter((kind) => kind === 'pressed')).toHaveLength(1);
  expect([...run.lines()].at(-1)).toMatchObject({ kind: 'told', code: 'too-soon', mark: 2 });
  expect(await press(3000)).toMatchObject({ ok: true });
  expect(shown.at(-1)).toMatchObject({ mark: 2, notice: null });
});

it('a hasty press is told until something is meant: not only until the count or the tilt speaks', async () => {
  const { run, shown, press } = live();
  await run.command('start-without-sound');
  await press(5000);
  await press(250);
  await run.reading('readout', { kind: 'tilt', deg: 8 });
  expect(run.view()).toMatchObject({ notice: { code: 'too-soon' } });
  await run.command('stop-feed');
  expect(shown.at(-1)).toMatchObject({ state: 'stopped', notice: null });
});

it('a pedal that is tried before the start is told to be seen, and changes nothing', async () => {
  const { run, shown, press, kinds } = live();
  const before = kinds();
  expect(await press(100)).toMatchObject({ ok: false, error: { code: 'not-feeding' } });
  expect(shown.at(-1)).toMatchObject({ state: 'ready', notice: { code: 'signal-seen' } });
  expect(kinds()).toEqual(before);
  await run.command('start-without-sound');
  expect(shown.at(-1)).toMatchObject({ state: 'feeding', notice: null });
});

it('a call that could not be played is told until a bevel is called again', async () => {
  const { run, shown, press } = live();
  await run.command('start-without-sound');
  run.unplayed('page', { id: 'c1', reason: '300 ms late' });
  expect(shown.at(-1)).toMatchObject({ notice: { code: 'call-missed' } });
  await press(5000);
  expect(shown.at(-1)).toMatchObject({ notice: null });
});
