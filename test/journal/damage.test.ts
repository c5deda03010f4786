import { existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openJournal } from '../../server/journal/openJournal.ts';
import { createDamageFinder } from '../../server/live/record/damageFinder.ts';
import {
  type Acknowledged,
  changeDigit,
  copyJournal,
  cutShort,
  flipBit,
  judge,
  killedJournal,
  meddle,
} from './damage.ts';
import { entryAt } from './entryAt.ts';

const dir = mkdtempSync(join(tmpdir(), 'by-the-mark-'));
const whole = join(dir, 'whole.sqlite');
const file = join(dir, 'journal.sqlite');
let acknowledged: Acknowledged;

beforeAll(() => {
  acknowledged = killedJournal(whole, { runs: 3, settled: 12, inLog: 12 });
});

afterAll(() => rmSync(dir, { recursive: true }));

/** A fresh copy, harmed; and what comes of it. */
function after(harm: () => void) {
  copyJournal(whole, file);
  harm();
  return judge(file, acknowledged);
}
function damageOf(run: string) {
  const journal = openJournal({ file });
  const finder = createDamageFinder();
  for (const line of journal.lines(run)) finder.line(line);
  const { damage } = finder.found(journal.seal(run).endIsKnown);
  journal.close();
  return damage;
}
const lastOf = (run: string): number => acknowledged.get(run)?.length ?? 0;

it('finds nothing wrong with what a killed server leaves', () => {
  expect(after(() => {})).toBe('harmless');
});

it('tells of a log that is cut off, from which line on and since when', () => {
  expect(after(() => cutShort(`${file}-wal`, 0.5))).toBe('told');
  const damage = damageOf('run1');
  expect(damage?.toLine).toBe(lastOf('run1'));
  const before = acknowledged.get('run1')?.[(damage?.fromLine ?? 0) - 2];
  expect(damage?.sinceMs).toBe(before?.atMs);
  expect(damage?.message).toMatch(/lines \d+ to \d+ are missing .* Nothing is sure after \d{4}-\d\d-\d\d at/);
});

it('never takes a line without its checksum, behind another one that lacks it too', () => {
  expect(after(() => meddle(file, "UPDATE lines SET sum = NULL WHERE run = 'run1' AND seq BETWEEN 4 AND 6"))).toBe(
    'told',
  );
  const journal = openJournal({ file });
  const taken = [...journal.lines('run1')].flatMap(({ seq, kind }) => (kind === 'unreadable' ? [] : [seq]));
  journal.close();
  for (const seq of [4, 5, 6]) expect(taken).not.toContain(seq);
});

it('never passes over a bit flipped in the log', () => {
  const bits = statSync(`${whole}-wal`).size * 8;
  for (let nth = 0; nth < 60; nth += 1)
    expect(
      after(() => flipBit(`${file}-wal`, Math.floor((bits * (nth + 0.5)) / 60))),
      `bit ${nth} of 60`,
    ).not.toBe('silent');
});

it('never passes over a bit or a digit changed in the database', () => {
  const bits = statSync(whole).size * 8;
  for (let nth = 0; nth < 60; nth += 1) {
    expect(
      after(() => flipBit(file, Math.floor((bits * (nth + 0.5)) / 60))),
      `bit ${nth} of 60`,
    ).not.toBe('silent');
    expect(
      after(() => void changeDigit(file, nth * 997)),
      `digit ${nth} of 60`,
    ).not.toBe('silent');
  }
});

describe.each([
  [
    'a mark that became another',
    `UPDATE lines SET entry = replace(entry, '"mark":11', '"mark":12') WHERE run = 'run1'`,
  ],
  ['a line that was taken out', `DELETE FROM lines WHERE run = 'run1' AND seq = 7`],
  ['the last lines taken out', `DELETE FROM lines WHERE run = 'run1' AND seq > 20`],
  ['all lines taken out', `DELETE FROM lines WHERE run = 'run1'`],
  ['a whole run taken out', `DELETE FROM lines WHERE run = 'run1'; DELETE FROM runs WHERE run = 'run1'`],
  [
    'two lines in each other’s place',
    `UPDATE lines SET seq = 9000 WHERE run = 'run1' AND seq = 5; UPDATE lines SET seq = 5 WHERE run = 'run1' AND seq = 6;
     UPDATE lines SET seq = 6 WHERE run = 'run1' AND seq = 9000`,
  ],
  [
    'the lines of another run',
    `DELETE FROM lines WHERE run = 'run1'; INSERT INTO lines SELECT 'run1', seq, entry, sum FROM lines WHERE run = 'run2'`,
  ],
  ['a checksum taken out', `UPDATE lines SET sum = NULL WHERE run = 'run1'`],
  ['a plan that was changed', `UPDATE runs SET plan = json_set(plan, '$.girthMm', 1) WHERE run = 'run1'`],
  [
    'a line with a number beyond all others',
    `UPDATE lines SET seq = seq + 4611686018427387904 WHERE run = 'run1' AND seq = 21`,
  ],
])('%s', (_, sql) => {
  it('is told, and the other runs are not harmed', () => {
    expect(after(() => meddle(file, sql))).toBe('told');
    const others = new Map([...acknowledged].filter(([run]) => run !== 'run1'));
    expect(judge(file, others)).toBe('harmless');
  });
});

it('names the first line that is not as it was kept', () => {
  after(() =>
    meddle(file, `UPDATE lines SET entry = replace(entry, '"mark":11', '"mark":12') WHERE run = 'run1' AND seq = 10`),
  );
  expect(acknowledged.get('run1')?.[9]).toMatchObject({ mark: 11 });
  expect(damageOf('run1')).toMatchObject({ fromLine: 10, toLine: 10 });
  const journal = openJournal({ file });
  const line = [...journal.lines('run1')][9];
  expect(line).toMatchObject({ seq: 10, kind: 'unreadable', what: 'changed', found: expect.stringContaining('12') });
  journal.close();
});

it('tells of a database that was put back from before, and of one whose trace is gone', () => {
  const before = join(dir, 'before.sqlite');
  copyJournal(whole, before);
  const journal = openJournal({ file: before });
  for (const run of acknowledged.keys()) journal.append(run, lastOf(run), [entryAt(1)]);
  journal.close();
  expect(after(() => writeFileSync(`${file}-trace`, readFileSync(`${before}-trace`)))).toBe('told');
  expect(after(() => rmSync(`${file}-trace`))).toBe('told');
  expect(damageOf('run1')?.message).toMatch(/whether lines are missing from line \d+ on is not known/);
});

it('goes on behind damage, never under a number that was given before, and still tells of it', () => {
  after(() => cutShort(`${file}-wal`, 0.5));
  const journal = openJournal({ file });
  const last = lastOf('run1');
  expect(journal.append('run1', last, [entryAt(1), entryAt(2)])).toBe(last + 2);
  const lines = [...journal.lines('run1')];
  expect(lines.map(({ seq }) => seq)).toEqual(lines.map((_, index) => index + 1));
  expect(lines.slice(-2)).toEqual([
    { seq: last + 1, ...entryAt(1) },
    { seq: last + 2, ...entryAt(2) },
  ]);
  journal.close();
  expect(damageOf('run1')?.toLine).toBe(last);
});

it('folds the log in when it is told to, so that nothing hangs on it any more', () => {
  copyJournal(whole, file);
  const journal = openJournal({ file });
  journal.settle();
  expect(statSync(`${file}-wal`).size).toBe(0);
  copyJournal(file, join(dir, 'folded.sqlite'));
  journal.close();
  rmSync(join(dir, 'folded.sqlite-wal'));
  expect(existsSync(join(dir, 'folded.sqlite'))).toBe(true);
  expect(judge(join(dir, 'folded.sqlite'), acknowledged)).toBe('harmless');
});
