import type { Database } from 'better-sqlite3';
import { type RunRow, runOfRow, type StoredRun } from '../storedRun.ts';

/** Newest first; of two made in the same millisecond, the one kept later. */
export function listRuns(db: Database): () => readonly StoredRun[] {
  const select = db.prepare<[], RunRow>('SELECT * FROM runs ORDER BY made_at_ms DESC, rowid DESC');
  return () => select.all().map(runOfRow);
}
