import type { Database } from 'better-sqlite3';
import type { JournalEntry, JournalLine } from '../../wire/journalLine.ts';
import { JournalError } from '../journalError.ts';
import { faultOfEntry } from '../shapes.ts';
import { lastSeq } from './lastSeq.ts';

/** Lines fetched at a time. */
const PAGE = 500;

interface LineRow {
  readonly seq: number;
  readonly entry: string;
}

/**
 * A run's lines in order, fetched as they are asked for: those that stood there when the first was asked for.
 * By pages, because better-sqlite3 lets nothing be written while a statement is being stepped through, and a record that is
 * being downloaded must not hold up a run.
 */
export function readLines(db: Database): (run: string) => IterableIterator<JournalLine> {
  const last = lastSeq(db);
  const page = db.prepare<[string, number, number, number], LineRow>(
    'SELECT seq, entry FROM lines WHERE run = ? AND seq > ? AND seq <= ? ORDER BY seq LIMIT ?',
  );
  return function* lines(run) {
    const upTo = last(run) ?? 0;
    for (let seq = 0; seq < upTo; ) {
      const rows = page.all(run, seq, upTo, PAGE);
      for (const row of rows) {
        if (row.seq !== seq + 1) throw damaged(run, seq + 1, 'it is missing');
        seq = row.seq;
        yield lineOfRow(run, row);
      }
      if (rows.length === 0) throw damaged(run, seq + 1, 'it is missing');
    }
  };
}

function lineOfRow(run: string, { seq, entry }: LineRow): JournalLine {
  const value: unknown = JSON.parse(entry);
  const fault = faultOfEntry(value);
  if (fault !== undefined) throw damaged(run, seq, fault);
  return { seq, ...(value as JournalEntry) };
}

const damaged = (run: string, seq: number, fault: string): JournalError =>
  new JournalError(
    'damaged',
    `line ${seq} of run ${run} cannot be read (${fault}): put back a backup of the data folder`,
  );
