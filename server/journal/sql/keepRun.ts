import type { StoredRun } from '../../wire/kept/storedRun.ts';
import { type Sum, sumBefore, sumOfLine } from '../chain.ts';
import { type Database, inTransaction } from '../database/database.ts';
import { JournalError } from '../journalError.ts';
import { type RunRow, rowOfRun } from '../runRow.ts';
import type { Trace } from '../trace.ts';

/** Keeps a new run and its first line in one transaction. */
export function keepRun(db: Database, trace: Trace): (stored: StoredRun) => void {
  const exists = db.prepare<[string]>('SELECT 1 FROM runs WHERE run = ?');
  const insertRun = db.prepare<[RunRow]>(
    `INSERT INTO runs (run, title, feed, plan, setup, clips, made_at_ms, sum)
     VALUES (@run, @title, @feed, @plan, @setup, @clips, @made_at_ms, @sum)`,
  );
  const insertMade = db.prepare<[string, string, Sum]>('INSERT INTO lines (run, seq, entry, sum) VALUES (?, 1, ?, ?)');
  const keep = (stored: StoredRun, made: string, sum: Sum): void => {
    insertRun.run(rowOfRun(stored));
    insertMade.run(stored.run, made, sum);
  };
  return (stored) => {
    const { run, title, madeAtMs } = stored;
    if (trace.of(run) !== undefined || exists.get(run) !== undefined)
      throw new JournalError('run-exists', `there is already a run ${run} in the journal`);
    const made = JSON.stringify(madeLine(stored));
    const sum = sumOfLine(sumBefore(run, 0), 1, made);
    // Begun first, so that no run is in the database that its trace does not know.
    trace.begin(run, title, madeAtMs);
    try {
      inTransaction(db, 'immediate', () => keep(stored, made, sum));
    } catch (error) {
      trace.undo(run);
      throw error;
    }
    trace.note(run, { seq: 1, atMs: madeAtMs, sum });
  };
}

const madeLine = ({ madeAtMs, setup, feed, title, plan: { despite } }: StoredRun) => ({
  kind: 'made',
  atMs: madeAtMs,
  mode: setup.mode,
  feed,
  title,
  ...(despite === undefined ? {} : { despite: despite.words }),
});
