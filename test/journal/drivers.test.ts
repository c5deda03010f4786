/** The two ways to SQLite do the same, as far as the journal asks for it. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inTransaction } from '../../server/journal/database/database.ts';
import { type Driver, openFile } from '../../server/journal/database/openFile.ts';
import { sqliteCode } from '../../server/journal/database/sqliteCode.ts';
import { openJournal } from '../../server/journal/openJournal.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { entryAt } from './entryAt.ts';
import { madeUpRun } from './madeUpRun.ts';

/** Node 20 has the package only; on a newer Node the package may not be there. */
const DRIVERS = (['runtime', 'package'] as const).filter(isThere);

function isThere(driver: Driver): boolean {
  try {
    if (driver === 'runtime') return process.getBuiltinModule?.('node:sqlite') !== undefined;
    openFile(':memory:', driver).close();
    return true;
  } catch {
    return false;
  }
}

const thrown = (act: () => unknown): unknown => {
  try {
    act();
  } catch (error) {
    return error;
  }
  return undefined;
};

it('is there at least once', () => {
  expect(DRIVERS.length).toBeGreaterThan(0);
});

describe.each(DRIVERS)('%s', (driver) => {
  it('gives rows by their columns, bytes as bytes, what is not there as undefined, and how many rows changed', () => {
    const db = openFile(':memory:', driver);
    db.exec('CREATE TABLE t (a INTEGER, b BLOB, c TEXT)');
    const put = db.prepare<[{ a: number; b: Uint8Array; c: string | null }]>('INSERT INTO t VALUES (@a, @b, @c)');
    put.run({ a: 1, b: new Uint8Array([1, 2]), c: 'ä' });
    put.run({ a: 2, b: new Uint8Array([3]), c: null });
    const one = db.prepare<[number], { a: number; b: Uint8Array; c: string }>('SELECT * FROM t WHERE a = ?');
    expect({ ...one.get(1), b: [...(one.get(1)?.b ?? [])] }).toEqual({ a: 1, b: [1, 2], c: 'ä' });
    expect(one.get(3)).toBeUndefined();
    expect(db.prepare<[], { c: unknown }>('SELECT c FROM t ORDER BY a').all()[1]?.c).toBeNull();
    expect(db.prepare<[]>('DELETE FROM t').run().changes).toBe(2);
    db.close();
  });

  it('reads a number that is too large to be exact, as a flipped bit makes it, to its nearest', () => {
    const db = openFile(':memory:', driver);
    db.exec('CREATE TABLE t (a INTEGER); INSERT INTO t VALUES (9007199254740995), (7)');
    const all = db.prepare<[], { a: number }>('SELECT a FROM t ORDER BY a');
    expect(all.all().map(({ a }) => a)).toEqual([7, 9007199254740996]);
    expect(all.get()).toEqual({ a: 7 });
    db.close();
  });

  it('keeps all of a transaction or none, and can begin another one after that', () => {
    const db = openFile(':memory:', driver);
    db.exec('CREATE TABLE t (a INTEGER)');
    const put = db.prepare<[number]>('INSERT INTO t VALUES (?)');
    const failing = (): void => {
      put.run(1);
      throw new Error('in the middle');
    };
    expect(() => inTransaction(db, 'immediate', failing)).toThrow('in the middle');
    expect(inTransaction(db, 'exclusive', () => put.run(2).changes)).toBe(1);
    expect(db.prepare<[], { a: number }>('SELECT a FROM t').all()).toEqual([{ a: 2 }]);
    db.close();
  });

  it('names what SQLite refuses by the same names', () => {
    const dir = freeDataDir();
    const text = join(dir, 'text');
    writeFileSync(text, 'no database at all, and long enough to be read as the header of one. '.repeat(20));
    const notOne = openFile(text, driver);
    expect(sqliteCode(thrown(() => notOne.exec('SELECT * FROM sqlite_schema')))).toBe('SQLITE_NOTADB');
    notOne.close();
    const file = join(dir, 'held');
    const [holder, other] = [openFile(file, driver), openFile(file, driver)];
    other.pragma('busy_timeout = 0');
    holder.exec('CREATE TABLE t (a); BEGIN EXCLUSIVE');
    expect(sqliteCode(thrown(() => other.exec('BEGIN EXCLUSIVE')))).toBe('SQLITE_BUSY');
    expect(sqliteCode(new Error('another'))).toBeUndefined();
    holder.close();
    other.close();
  });

  it('may be closed twice, and tells that it is', () => {
    const db = openFile(':memory:', driver);
    expect(db.isOpen).toBe(true);
    db.close();
    db.close();
    expect(db.isOpen).toBe(false);
  });

  it.each(DRIVERS)('keeps a journal that %s reads and goes on with', (other) => {
    const file = join(freeDataDir(), 'journal.sqlite');
    const first = openJournal({ file, driver });
    first.keepRun(madeUpRun('r1'));
    first.append('r1', 1, [entryAt(2), entryAt(3)]);
    first.close();
    const second = openJournal({ file, driver: other });
    expect([...second.lines('r1')].slice(1)).toEqual([2, 3].map((seq) => ({ seq, ...entryAt(seq) })));
    expect(second.append('r1', 3, [entryAt(4)])).toBe(4);
    second.close();
  });
});
