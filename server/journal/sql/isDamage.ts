import { sqliteCode } from '../database/sqliteCode.ts';

/** True for what SQLite throws where the file is not as it was written; false for a full disk, a lock and the like. */
export const isDamage = (error: unknown): boolean =>
  /^SQLITE_(CORRUPT|NOTADB|IOERR_SHORT_READ)/.test(sqliteCode(error) ?? '');
