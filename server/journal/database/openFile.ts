import { JournalError } from '../journalError.ts';
import type { Database } from './database.ts';
import { openPackagedSqlite } from './packagedSqlite.ts';
import { openRuntimeSqlite, runtimeSqlite } from './runtimeSqlite.ts';

export type Driver = 'runtime' | 'package';

/** The one that is there; the runtime's own is quicker, and nothing is compiled for it. */
const usualDriver = (): Driver => (runtimeSqlite() === undefined ? 'package' : 'runtime');

/** Throws JournalError where this machine has no SQLite at all, and what SQLite throws. */
export function openFile(file: string, driver: Driver = driverAskedFor() ?? usualDriver()): Database {
  const runtime = runtimeSqlite();
  if (driver === 'runtime' && runtime !== undefined) return openRuntimeSqlite(runtime, file);
  try {
    return openPackagedSqlite(file);
  } catch (error) {
    if (!isMissing(error)) throw error;
    throw new JournalError(
      'cannot-open',
      'nothing can be kept: this Node has no SQLite and the package better-sqlite3 is not installed. Use Node 22.13 or later, or install again where it can be compiled',
      { cause: error },
    );
  }
}

/** So that tests of the whole program can go over both. */
function driverAskedFor(): Driver | undefined {
  const asked = process.env.BY_THE_MARK_SQLITE;
  return asked === 'runtime' || asked === 'package' ? asked : undefined;
}

/** Not there, or without the part that is compiled, or with one that was compiled for another Node. */
const isMissing = (error: unknown): boolean =>
  error instanceof Error &&
  (('code' in error && /^(MODULE_NOT_FOUND|ERR_DLOPEN_FAILED)$/.test(String(error.code))) ||
    /bindings file/.test(error.message));
