import type { Database } from 'better-sqlite3';
import type { StoredRun } from '../../wire/storedRun.ts';
import { JournalError } from '../journalError.ts';
import { type RunRow, rowOfRun } from '../storedRun.ts';

/** Keeps a new run and its first line in one transaction. */
export function keepRun(db: Database): (stored: StoredRun) => void {
  const exists = db.prepare<[string]>('SELECT 1 FROM runs WHERE run = ?');
  const insertRun = db.prepare<[RunRow]>(
    `INSERT INTO runs (run, title, feed, plan, setup, clips, made_at_ms)
     VALUES (@run, @title, @feed, @plan, @setup, @clips, @made_at_ms)`,
  );
  const insertMade = db.prepare<[string, string]>('INSERT INTO lines (run, seq, entry) VALUES (?, 1, ?)');
  const keep = db.transaction((stored: StoredRun): void => {
    if (exists.get(stored.run) !== undefined)
      throw new JournalError('run-exists', `there is already a run ${stored.run} in the journal`);
    insertRun.run(rowOfRun(stored));
    insertMade.run(stored.run, JSON.stringify(madeLine(stored)));
  });
  return keep.immediate;
}

const madeLine = ({ madeAtMs, setup, feed, title }: StoredRun) => ({
  kind: 'made',
  atMs: madeAtMs,
  mode: setup.mode,
  feed,
  title,
});
