import type { Database } from 'better-sqlite3';
import type { JournalEntry } from '../../wire/journalLine.ts';
import { JournalError } from '../journalError.ts';
import { faultOfEntry } from '../shapes.ts';
import { lastSeq } from './lastSeq.ts';

/** Appends lines after `afterSeq` in one transaction: all of them or none. Gives the `seq` of the last. */
export function append(db: Database): (run: string, afterSeq: number, entries: readonly JournalEntry[]) => number {
  const last = lastSeq(db);
  const insert = db.prepare<[string, number, string]>('INSERT INTO lines (run, seq, entry) VALUES (?, ?, ?)');
  const appendAll = db.transaction((run: string, afterSeq: number, entries: readonly JournalEntry[]): number => {
    const standsAt = last(run);
    if (standsAt === undefined) throw new JournalError('no-such-run', `there is no run ${run} in the journal`);
    if (standsAt !== afterSeq)
      throw new JournalError(
        'conflict',
        `run ${run} stands at line ${standsAt}, and not at ${afterSeq} as its writer believed: read it again before going on`,
      );
    let seq = afterSeq;
    for (const entry of entries) {
      seq += 1;
      insert.run(run, seq, textOf(run, seq, entry));
    }
    return seq;
  });
  return appendAll.immediate;
}

/** Whatever could not be read back is refused before it is acknowledged: JSON turns NaN into null without a word. */
function textOf(run: string, seq: number, entry: JournalEntry): string {
  const fault = faultOfEntry(entry);
  if (fault === undefined) return JSON.stringify(entry);
  throw new JournalError('bad-entry', `line ${seq} of run ${run} cannot be kept (${fault}): ${JSON.stringify(entry)}`);
}
