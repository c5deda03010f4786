import type { Database } from 'better-sqlite3';
import type { StoredRun } from '../../wire/storedRun.ts';
import { type RunRow, runOfRow } from '../storedRun.ts';

/** The newest `atMost`, newest first; of two made in the same millisecond, the one kept later. */
export function listRuns(db: Database): (atMost: number) => readonly StoredRun[] {
  const select = db.prepare<[number], RunRow>('SELECT * FROM runs ORDER BY made_at_ms DESC, rowid DESC LIMIT ?');
  return (atMost) => select.all(atMost).map(runOfRow);
}
