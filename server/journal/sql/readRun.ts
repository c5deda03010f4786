import type { Database } from 'better-sqlite3';
import type { StoredRun } from '../../wire/storedRun.ts';
import { type RunRow, runOfRow } from '../storedRun.ts';

export function readRun(db: Database): (run: string) => StoredRun | undefined {
  const select = db.prepare<[string], RunRow>('SELECT * FROM runs WHERE run = ?');
  return (run) => {
    const row = select.get(run);
    return row && runOfRow(row);
  };
}
