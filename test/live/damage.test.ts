import { join } from 'node:path';
import { expect, it } from 'vitest';
import { openJournal } from '../../server/journal/openJournal.ts';
import type { LiveRunNeeds } from '../../server/live/livePorts.ts';
import { createLiveRuns } from '../../server/live/liveRuns.ts';
import type { FeedFrame } from '../../server/wire/message/feedFrame.ts';
import { canBeRead } from '../../server/wire/message/messages.ts';
import { copyJournal, cutShort, meddle } from '../journal/damage.ts';
import { madeUpRun } from '../journal/madeUpRun.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { handOwnTime } from '../kit/handOwnTime.ts';
import { smallSetup } from '../kit/runSetup.ts';

const pedal = { kind: 'pedal' } as const;

function open(file: string) {
  const journal = openJournal({ file });
  const needs: LiveRunNeeds = {
    journal,
    nowMs: () => performance.timeOrigin + performance.now(),
    haveSeen: () => {},
    report: () => {},
    ownTime: handOwnTime().ownTime,
  };
  const runs = createLiveRuns({ ...needs, onOpened: () => {} });
  return { runs, close: () => [runs.close(), journal.close()] };
}

/** A run that has reached `presses` marks, as a kill leaves it in `file`: the log not folded in since it was made. */
async function killed(file: string, presses: number, name = 'r1', after: readonly FeedFrame[] = []): Promise<void> {
  const before = join(freeDataDir(), 'journal.sqlite');
  const { runs, close } = open(before);
  const run = runs.keep({ ...madeUpRun(name, Date.now()), setup: smallSetup() });
  runs.keep({ ...madeUpRun('sound', Date.now()), setup: smallSetup() });
  await run.command('start');
  for (let press = 0; press < presses; press += 1) await run.reading('foot', pedal);
  for (const frame of after) await run.reading('device', frame);
  copyJournal(before, file);
  close();
}

it('never goes on silently where its end is missing: a person says which mark is at the blade', async () => {
  const file = join(freeDataDir(), 'journal.sqlite');
  await killed(file, 2);
  cutShort(`${file}-wal`, 0.9);
  const first = open(file);
  const run = first.runs.get('r1');
  expect(run?.view()).toMatchObject({
    state: 'stopped',
    isPlaceKnown: false,
    nextMark: null,
    nextDeg: null,
    notice: { code: 'damaged', message: expect.stringContaining('See which mark is at the blade') },
    record: { isChecked: true, damage: { message: expect.stringMatching(/missing .* Nothing is sure after/) } },
  });
  expect(await run?.command('resume')).toMatchObject({ ok: false, error: { code: 'place-unknown' } });
  expect(await run?.reading('foot', pedal)).toMatchObject({ ok: false, error: { code: 'not-feeding' } });
  expect(await run?.placed(99)).toMatchObject({ ok: false, error: { code: 'no-such-mark' } });
  expect(await run?.placed(2)).toMatchObject({ ok: true });
  expect(await run?.placed(2)).toMatchObject({ ok: false, error: { code: 'place-known' } });
  expect(await run?.command('resume')).toMatchObject({ ok: true });
  expect(run?.view()).toMatchObject({ state: 'feeding', mark: 2, nextMark: 3, notice: null });
  first.close();

  const again = open(file);
  expect(again.runs.get('r1')?.view()).toMatchObject({
    state: 'stopped',
    mark: 2,
    isPlaceKnown: true,
    notice: { code: 'restarted' },
    record: { damage: { message: expect.stringContaining('missing') } },
  });
  again.close();
});

it('begins before the first mark where a person says so', async () => {
  const file = join(freeDataDir(), 'journal.sqlite');
  await killed(file, 2);
  meddle(file, `UPDATE lines SET entry = replace(entry, 'next', 'back') WHERE run = 'r1'`);
  const { runs, close } = open(file);
  const run = runs.get('r1');
  expect(run?.view()).toMatchObject({ state: 'stopped', isPlaceKnown: false });
  for (const mark of [3, smallSetup().stations.length])
    expect(await run?.reading('reader', { kind: 'mark', mark })).toMatchObject({
      ok: false,
      error: { code: 'place-unknown' },
    });
  expect(run?.view()).toMatchObject({ state: 'stopped', isPlaceKnown: false });
  await run?.placed(0);
  await run?.command('resume');
  expect(run?.view()).toMatchObject({ state: 'feeding', mark: 0, nextMark: 1 });
  close();
});

it('tells of damage to a finished run, and leaves it finished', async () => {
  const file = join(freeDataDir(), 'journal.sqlite');
  await killed(file, smallSetup().stations.length);
  meddle(file, `UPDATE lines SET entry = replace(entry, 'next', 'back') WHERE run = 'r1' AND seq < 8`);
  const { runs, close } = open(file);
  const lines = runs.get('r1')?.view();
  expect(lines?.record.damage?.fromLine).toBeGreaterThan(1);
  close();
});

it('does not begin a finished run again by a foot where a line of it is damaged', async () => {
  const file = join(freeDataDir(), 'journal.sqlite');
  const last = { kind: 'mark', mark: smallSetup().stations.length } as const;
  await killed(file, 0, 'r1', [{ kind: 'pedal', gesture: 'again' }, last]);
  meddle(file, `UPDATE lines SET entry = replace(entry, 'again', 'other') WHERE run = 'r1'`);
  const { runs, close } = open(file);
  const run = runs.get('r1');
  expect(run?.view()).toMatchObject({ state: 'finished', record: { damage: { fromLine: expect.any(Number) } } });
  const back = await run?.reading('foot', { kind: 'pedal', gesture: 'back' });
  expect(back).toMatchObject({ ok: false, error: { code: 'place-unknown' } });
  expect(run?.view().state).toBe('finished');
  close();
});

it('lists a run that cannot be read, says so, gives out what is left of it, and harms no other', async () => {
  const file = join(freeDataDir(), 'journal.sqlite');
  await killed(file, 2);
  meddle(file, `UPDATE runs SET plan = json_set(plan, '$.girthMm', 1) WHERE run = 'r1'`);
  const { runs, close } = open(file);
  const listed = await runs.list();
  expect(listed.map(({ run }) => run).toSorted()).toEqual(['r1', 'sound']);
  expect(listed.find(({ run }) => run === 'r1')).toMatchObject({
    isReadable: false,
    state: 'stopped',
    title: madeUpRun('r1').title,
    record: { damage: { message: expect.stringContaining('cannot be read') } },
  });
  expect(listed.filter(canBeRead)).toMatchObject([{ run: 'sound', state: 'ready', record: { damage: null } }]);
  expect(() => runs.get('r1')).toThrow(expect.objectContaining({ code: 'damaged' }));
  const kinds = [...(runs.lines('r1') ?? [])].map(({ kind }) => kind);
  expect(kinds.slice(0, 2)).toEqual(['made', 'started']);
  expect(await runs.get('sound')?.command('start')).toMatchObject({ ok: true });
  expect(runs.lines('none')).toBeUndefined();
  close();
});
