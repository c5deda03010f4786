import type { Database } from 'better-sqlite3';

/** The newest `atMost`, newest first; of two made in the same millisecond, the one kept later. */
export function namesOfRuns(db: Database): (atMost: number) => readonly string[] {
  const select = db
    .prepare<[number], string>('SELECT run FROM runs ORDER BY made_at_ms DESC, rowid DESC LIMIT ?')
    .pluck();
  return (atMost) => select.all(atMost) as string[];
}
