import { accessSync, constants, existsSync, mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import { type Database, inTransaction } from './database/database.ts';
import { type Driver, openFile } from './database/openFile.ts';
import { JournalError } from './journalError.ts';
import { migrate } from './migrate.ts';
import { HISTORY } from './migrations/history.ts';
import { readOnlyMessage } from './tellSqliteErrors.ts';

/** How long an opening program waits for one that is just ending, as in a restart. */
export const OPENING_WAIT_MS = 2000;

/**
 * Opens (or makes) the journal's database, takes it for this program alone and brings its schema up to date.
 *
 * The lock is SQLite's own exclusive lock on the file, so the kernel lets go of it with the process, however that ends, and
 * no stale lock file can stand in the way of a restart. POSIX drops it too when this process opens and closes the same file
 * by other means: never read a journal's file with node:fs while it is open.
 */
export function openDatabase(file: string, waitMs: number, driver?: Driver): Database {
  makeFolder(file);
  // SQLite would open what it may only read without a word, and fail at the first write with a message of another kind.
  for (const needed of [dirname(file), file]) if (existsSync(needed)) askToWrite(needed);
  const db = openFile(file, driver);
  try {
    db.pragma(`busy_timeout = ${waitMs}`);
    db.pragma('locking_mode = EXCLUSIVE');
    migrate(db, HISTORY);
    // Full: a commit returns only once the write-ahead log is on the disk. SQLite's default for WAL would lose the last
    // commits with the power: https://www.sqlite.org/pragma.html#pragma_synchronous (from memory)
    db.pragma('journal_mode = WAL');
    db.pragma('synchronous = FULL');
    db.pragma('foreign_keys = ON');
    // Reading may have taken a shared lock only; this one takes the file, and finds out whether it can be written.
    inTransaction(db, 'exclusive', () => db.pragma(`user_version = ${HISTORY.length}`));
    return db;
  } catch (error) {
    db.close();
    throw error;
  }
}

function makeFolder(file: string): void {
  const folder = dirname(file);
  try {
    mkdirSync(folder, { recursive: true });
  } catch (error) {
    throw new JournalError(
      'cannot-open',
      `the folder ${folder} cannot be made: choose another one (--data DIR), or give this user leave to write there`,
      { cause: error },
    );
  }
}

function askToWrite(path: string): void {
  try {
    accessSync(path, constants.W_OK);
  } catch (error) {
    throw new JournalError('read-only', readOnlyMessage(path), { cause: error });
  }
}
