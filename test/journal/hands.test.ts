import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { openJournal } from '../../server/journal/openJournal.ts';
import type { KeptHand } from '../../server/wire/kept/crew.ts';
import type { StoredRun } from '../../server/wire/kept/storedRun.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { madeUpRun } from './madeUpRun.ts';

const NAME = 'Quillfeather';
const hand = (run: string, name = NAME, keptAtMs = 1): KeptHand => ({
  run,
  name,
  keptAtMs,
  reactionS: { median: 0.4, error: 0.02, spread: 0.2, turns: 9 },
  turnsPerS: null,
});
const madeFor = (run: string, tiltHand: string): StoredRun => {
  const stored = madeUpRun(run);
  const crew = { ...stored.plan.crew, tiltHand, learnt: ['reactionS'] as const };
  return { ...stored, plan: { ...stored.plan, crew }, setup: { ...stored.setup, crew } };
};
function opened() {
  const file = join(freeDataDir(), 'journal.sqlite');
  return { file, journal: openJournal({ file }) };
}

it('gives back what was kept, in the order in which it was, after a restart too', () => {
  const { file, journal } = opened();
  for (const run of ['r1', 'r2', 'r3']) journal.keepRun(madeUpRun(run));
  const kept = [hand('r2', 'KT', 5), hand('r1', 'KT', 7), hand('r3', 'Ö. W.', 9)];
  for (const each of [kept[1], kept[2], kept[0]]) if (each !== undefined) journal.keepHand(each);
  expect(journal.hands()).toEqual(kept);
  journal.close();
  const again = openJournal({ file });
  expect(again.hands()).toEqual(kept);
  again.close();
});

it('holds one person to a run: the one named last', () => {
  const { journal } = opened();
  journal.keepRun(madeUpRun('r1'));
  journal.keepHand(hand('r1', 'KT'));
  journal.keepHand(hand('r1', 'BW', 3));
  expect(journal.hands()).toEqual([hand('r1', 'BW', 3)]);
  journal.close();
});

it('keeps nothing of a run that it does not know', () => {
  const { journal } = opened();
  expect(() => journal.keepHand(hand('none'))).toThrow(expect.objectContaining({ code: 'no-such-run' }));
  expect(journal.hands()).toEqual([]);
  journal.close();
});

it('forgets a person whole, however the name is written: no byte of it is left in the folder, and the runs stay', () => {
  const { file, journal } = opened();
  journal.keepRun(madeUpRun('r1'));
  journal.keepRun(madeFor('r2', NAME));
  journal.keepRun(madeFor('r3', 'KT'));
  journal.keepHand(hand('r1'));
  journal.keepHand(hand('r3', 'KT'));
  journal.close();
  // Looked at only while the journal is closed: to read the file by other means lets go of its lock.
  const isInTheFolder = (): boolean =>
    readdirSync(dirname(file)).some((name) => readFileSync(join(dirname(file), name)).includes(NAME));
  expect(isInTheFolder()).toBe(true);

  const again = openJournal({ file });
  expect(again.forgetHand('quillFEATHER ')).toBe(true);
  expect(again.forgetHand(NAME)).toBe(false);
  expect(again.hands()).toEqual([hand('r3', 'KT')]);
  expect(again.run('r2')).toEqual(madeUpRun('r2'));
  expect(again.run('r3')?.plan.crew.tiltHand).toBe('KT');
  again.close();
  expect(isInTheFolder()).toBe(false);
});
