import Database from 'better-sqlite3';

/** True for what SQLite throws where the file is not as it was written; false for a full disk, a lock and the like. */
export const isDamage = (error: unknown): boolean =>
  error instanceof Database.SqliteError && /^SQLITE_(CORRUPT|NOTADB|IOERR_SHORT_READ)/.test(error.code);
