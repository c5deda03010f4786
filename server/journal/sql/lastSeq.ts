import type { Database } from 'better-sqlite3';

/** The `seq` of a run's last line; undefined where there is no such run (every run has its first line). */
export function lastSeq(db: Database): (run: string) => number | undefined {
  const select = db.prepare<[string], number | null>('SELECT max(seq) FROM lines WHERE run = ?').pluck();
  return (run) => select.get(run) ?? undefined;
}
