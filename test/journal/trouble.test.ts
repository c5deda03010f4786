import { spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { openFile } from '../../server/journal/database/openFile.ts';
import { JournalError, type JournalErrorCode } from '../../server/journal/journalError.ts';
import { HISTORY } from '../../server/journal/migrations/history.ts';
import { openDatabase } from '../../server/journal/openDatabase.ts';
import { journalOn, openJournal } from '../../server/journal/openJournal.ts';
import { openTrace } from '../../server/journal/trace.ts';
import type { JournalEntry } from '../../server/wire/kept/journalLine.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { entryAt } from './entryAt.ts';
import { madeUpRun } from './madeUpRun.ts';

/** The JournalError that `act` throws; fails where it throws none or another. */
function fault(act: () => unknown, code: JournalErrorCode): JournalError {
  try {
    act();
  } catch (error) {
    if (!(error instanceof JournalError)) throw error;
    expect(error.code).toBe(code);
    return error;
  }
  throw new Error(`nothing was thrown, ${code} was expected`);
}

const longEntry: JournalEntry = entryAt(11);

it('refuses a second opening, in words that tell what to do, until the first is closed', () => {
  const file = join(freeDataDir(), 'journal.sqlite');
  const first = openJournal({ file });
  expect(fault(() => openJournal({ file, waitMs: 0 }), 'in-use').message).toBe(
    `another By the Mark is using ${file}: stop that one first, or start this one with another folder (--data DIR) (SQLITE_BUSY)`,
  );
  first.keepRun(madeUpRun('r1'));
  first.close();
  const second = openJournal({ file, waitMs: 0 });
  expect(second.run('r1')).toEqual(madeUpRun('r1'));
  second.close();
});

it('may be closed twice, and says so when it is used afterwards', () => {
  const journal = openJournal({ file: join(freeDataDir(), 'journal.sqlite') });
  journal.close();
  journal.close();
  fault(() => journal.names(100), 'closed');
  fault(() => [...journal.lines('r1')], 'closed');
});

it('refuses a journal of a newer program and leaves it as it was', () => {
  const file = join(freeDataDir(), 'journal.sqlite');
  openJournal({ file }).close();
  const newer = openFile(file);
  newer.pragma('user_version = 7');
  newer.close();
  const before = readFileSync(file);
  expect(fault(() => openJournal({ file }), 'too-new').message).toContain(
    `journal version 7; this program knows up to ${HISTORY.length}`,
  );
  expect(readFileSync(file)).toEqual(before);
});

it("refuses another program's database and leaves it as it was", () => {
  const file = join(freeDataDir(), 'journal.sqlite');
  const other = openFile(file);
  other.exec('CREATE TABLE recipes (name TEXT)');
  other.close();
  const before = readFileSync(file);
  fault(() => openJournal({ file }), 'not-a-journal');
  expect(readFileSync(file)).toEqual(before);
});

it('refuses a file that is no database', () => {
  const file = join(freeDataDir(), 'journal.sqlite');
  writeFileSync(file, 'Dear diary, today we sawed frame 3.\n'.repeat(200));
  fault(() => openJournal({ file }), 'not-a-journal');
});

it('tells of a damaged file instead of giving wrong lines', () => {
  const file = join(freeDataDir(), 'journal.sqlite');
  const journal = openJournal({ file });
  journal.keepRun(madeUpRun('r1'));
  journal.append(
    'r1',
    1,
    Array.from({ length: 200 }, () => longEntry),
  );
  journal.close();
  const bytes = readFileSync(file);
  // All but the first page, which holds the header and the schema.
  bytes.fill(0xa5, 4096);
  writeFileSync(file, bytes);
  const damaged = openJournal({ file });
  expect([...damaged.lines('r1')]).toEqual(
    Array.from({ length: 201 }, (_, index) => ({
      seq: index + 1,
      kind: 'unreadable',
      atMs: madeUpRun('r1').madeAtMs,
      what: 'missing',
    })),
  );
  expect(damaged.names(5)).toEqual(['r1']);
  fault(() => damaged.run('r1'), 'damaged');
  fault(() => damaged.append('r1', 201, [longEntry]), 'damaged');
  damaged.close();
});

it.each([
  ['a line that is no entry', `INSERT INTO lines (run, seq, entry) VALUES ('r1', 2, '{"kind":"sung","atMs":3}')`],
  ['a line without its time', `INSERT INTO lines (run, seq, entry) VALUES ('r1', 2, '{"kind":"resumed"}')`],
  ['a line that is missing', `INSERT INTO lines (run, seq, entry) VALUES ('r1', 3, '{"kind":"resumed","atMs":3}')`],
])('tells of %s, and which', (_, sql) => {
  const file = join(freeDataDir(), 'journal.sqlite');
  const journal = openJournal({ file });
  journal.keepRun(madeUpRun('r1'));
  journal.close();
  const meddler = openFile(file);
  meddler.exec(sql);
  meddler.close();
  const opened = openJournal({ file });
  const [first, second] = opened.lines('r1');
  expect([first?.kind, second?.seq, second?.kind]).toEqual(['made', 2, 'unreadable']);
  opened.close();
});

it('tells of a run that cannot be read, and what of it', () => {
  const file = join(freeDataDir(), 'journal.sqlite');
  const journal = openJournal({ file });
  journal.keepRun(madeUpRun('r1'));
  journal.close();
  const meddler = openFile(file);
  meddler.exec(`UPDATE runs SET setup = json_set(setup, '$.stations[1].tiltDeg', 'steep')`);
  meddler.close();
  const opened = openJournal({ file });
  expect(fault(() => opened.run('r1'), 'damaged').message).toContain(
    'run r1 cannot be read (setup, stations.1.tiltDeg:',
  );
  opened.close();
});

it('never changes a line nor takes one out, whoever asks', () => {
  const file = join(freeDataDir(), 'journal.sqlite');
  const db = openDatabase(file, 0);
  journalOn(db, openTrace(`${file}-trace`)).keepRun(madeUpRun('r1'));
  expect(() => db.exec('UPDATE lines SET seq = 5')).toThrow('never changed');
  expect(() => db.exec('DELETE FROM lines')).toThrow('never taken out');
  db.close();
});

it('keeps what it has when the disk is full, and goes on when there is room', () => {
  const file = join(freeDataDir(), 'journal.sqlite');
  const db = openDatabase(file, 0);
  const journal = journalOn(db, openTrace(`${file}-trace`));
  journal.keepRun(madeUpRun('r1'));
  // SQLite's own limit: it answers as a full disk does.
  const pages = Number(db.pragma('page_count'));
  db.pragma(`max_page_count = ${pages + 4}`);
  const many = Array.from({ length: 50 }, () => longEntry);
  expect(fault(() => journal.append('r1', 1, many), 'full').message).toContain('make room');
  expect([...journal.lines('r1')]).toHaveLength(1);
  db.pragma('max_page_count = 100000');
  expect(journal.append('r1', 1, many)).toBe(51);
  journal.close();
});

/** Opens the journal in a process of a user who may write nothing here; root may write everywhere. */
function openAsNobody(file: string): { readonly code: string; readonly message: string } {
  const child = spawnSync(process.execPath, [join(import.meta.dirname, 'openingChild.mjs'), file], {
    encoding: 'utf8',
    ...(process.getuid?.() === 0 ? { uid: 65534, gid: 65534 } : {}),
  });
  expect(child.stderr).toBe('');
  return JSON.parse(child.stdout);
}

it('tells of a folder and of a file that may not be written', () => {
  const dir = join(freeDataDir(), 'data');
  mkdirSync(dir);
  const file = join(dir, 'journal.sqlite');
  chmodSync(join(dir, '..'), 0o755);
  chmodSync(dir, 0o555);
  expect(openAsNobody(join(dir, 'deeper', 'journal.sqlite')).code).toBe('cannot-open');
  expect(openAsNobody(file).code).toBe('read-only');
  chmodSync(dir, 0o755);
  openJournal({ file }).close();
  chmodSync(file, 0o444);
  chmodSync(dir, 0o555);
  const refused = openAsNobody(file);
  expect(refused.code).toBe('read-only');
  expect(refused.message).toContain('--data DIR');
  chmodSync(dir, 0o755);
});
