/** Extended where the journal asks for more than the primary: https://www.sqlite.org/rescode.html (from memory). */
const NAMES: Readonly<Record<number, string>> = {
  3: 'SQLITE_PERM',
  5: 'SQLITE_BUSY',
  6: 'SQLITE_LOCKED',
  8: 'SQLITE_READONLY',
  10: 'SQLITE_IOERR',
  11: 'SQLITE_CORRUPT',
  13: 'SQLITE_FULL',
  14: 'SQLITE_CANTOPEN',
  19: 'SQLITE_CONSTRAINT',
  23: 'SQLITE_AUTH',
  26: 'SQLITE_NOTADB',
  522: 'SQLITE_IOERR_SHORT_READ',
};

/** SQLite's name for what it threw through either driver, such as `SQLITE_FULL`; undefined for what is not of SQLite. */
export function sqliteCode(error: unknown): string | undefined {
  if (!(error instanceof Error)) return undefined;
  if ('errcode' in error && typeof error.errcode === 'number')
    return NAMES[error.errcode] ?? NAMES[error.errcode & 0xff] ?? `SQLITE_${error.errcode}`;
  return 'code' in error && String(error.code).startsWith('SQLITE_') ? String(error.code) : undefined;
}
