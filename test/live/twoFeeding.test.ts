import { join } from 'node:path';
import { expect, it } from 'vitest';
import { openJournal } from '../../server/journal/openJournal.ts';
import { createLiveRuns } from '../../server/live/liveRuns.ts';
import { madeUpRun } from '../journal/madeUpRun.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { handOwnTime } from '../kit/handOwnTime.ts';
import { smallSetup } from '../kit/runSetup.ts';

it('two runs that feed at once are told of each other, once, until one of them stands', async () => {
  const journal = openJournal({ file: join(freeDataDir(), 'journal.sqlite') });
  const runs = createLiveRuns({
    journal,
    nowMs: Date.now,
    haveSeen: () => undefined,
    report: console.error,
    ownTime: handOwnTime().ownTime,
    onOpened: () => undefined,
  });
  const keep = (name: string) => runs.keep({ ...madeUpRun(name, Date.now()), title: name, setup: smallSetup() });
  const [one, two] = [keep('Frame 14'), keep('Frame 15')];
  await one.command('start-without-sound');
  expect(one.view().notice).toBe(null);
  await two.command('start-without-sound');
  expect(one.view().notice).toMatchObject({ code: 'two-feeding', message: expect.stringContaining('Frame 15') });
  expect(two.view().notice).toMatchObject({ code: 'two-feeding', message: expect.stringContaining('Frame 14') });
  await one.reading('foot', { kind: 'pedal' });
  expect(one.view().notice?.code).toBe('two-feeding');
  await two.command('stop-feed');
  expect([one.view().notice, two.view().notice]).toEqual([null, null]);
  for (const run of [one, two])
    expect([...run.lines()].filter((line) => line.kind === 'told' && line.code === 'two-feeding')).toHaveLength(1);
  runs.close();
  journal.close();
});
