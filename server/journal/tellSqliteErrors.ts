import { sqliteCode } from './database/sqliteCode.ts';
import { JournalError, type JournalErrorCode } from './journalError.ts';

type Told = readonly [code: JournalErrorCode, message: (file: string) => string];

// By the primary result code; SQLite appends detail to it (SQLITE_IOERR_FSYNC): https://www.sqlite.org/rescode.html (from memory)
const TOLD: Readonly<Record<string, Told>> = {
  SQLITE_BUSY: [
    'in-use',
    (file) =>
      `another By the Mark is using ${file}: stop that one first, or start this one with another folder (--data DIR)`,
  ],
  SQLITE_READONLY: ['read-only', readOnlyMessage],
  SQLITE_FULL: [
    'full',
    (file) => `the disk that holds ${file} is full: stop the feed, make room, then start again; what was kept is safe`,
  ],
  SQLITE_CORRUPT: [
    'damaged',
    (file) =>
      `${file} is damaged: keep a copy of the folder, then put back a backup or start with another folder (--data DIR)`,
  ],
  SQLITE_NOTADB: [
    'not-a-journal',
    (file) => `${file} is no journal of By the Mark: move it away, or start with another folder (--data DIR)`,
  ],
  SQLITE_CANTOPEN: [
    'cannot-open',
    (file) => `${file} cannot be opened: see that its folder exists and that this user may write there`,
  ],
  SQLITE_IOERR: [
    'disk',
    (file) => `the disk failed while ${file} was used: stop the feed, look after the disk, then start again`,
  ],
};
/** Also for what is found out before SQLite is asked. */
export function readOnlyMessage(path: string): string {
  return `${path} cannot be written: give this user leave to write there, or choose another folder (--data DIR)`;
}

const SAME_AS: Readonly<Record<string, string>> = {
  SQLITE_LOCKED: 'SQLITE_BUSY',
  SQLITE_PERM: 'SQLITE_READONLY',
  SQLITE_AUTH: 'SQLITE_READONLY',
  // What the system says of the file beside the database.
  ENOSPC: 'SQLITE_FULL',
  EDQUOT: 'SQLITE_FULL',
  EFBIG: 'SQLITE_FULL',
  EROFS: 'SQLITE_READONLY',
  EACCES: 'SQLITE_READONLY',
  EPERM: 'SQLITE_READONLY',
  EIO: 'SQLITE_IOERR',
  EISDIR: 'SQLITE_CANTOPEN',
};

/** Runs `act` and turns what SQLite and the system throw into a JournalError. What is no fault of the world (a wrong statement) goes through as it is. */
export function tellSqliteErrors<T>(file: string, act: () => T): T {
  try {
    return act();
  } catch (error) {
    throw told(file, error);
  }
}

function told(file: string, error: unknown): unknown {
  const code = sqliteCode(error) ?? (error instanceof Error && 'code' in error ? String(error.code) : '');
  const primary = code.startsWith('SQLITE_') ? code.split('_').slice(0, 2).join('_') : code;
  const entry = TOLD[SAME_AS[primary] ?? primary];
  if (entry === undefined) return error;
  const [journalCode, message] = entry;
  return new JournalError(journalCode, `${message(file)} (${code})`, { cause: error });
}
