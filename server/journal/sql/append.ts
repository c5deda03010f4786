import type { JournalEntry } from '../../wire/kept/journalLine.ts';
import { type Sum, sumOfLine } from '../chain.ts';
import { type Database, inTransaction } from '../database/database.ts';
import { JournalError } from '../journalError.ts';
import { faultOfEntry } from '../storedShapes.ts';
import type { LastLine, Trace } from '../trace.ts';
import { type Head, headOf } from './head.ts';

type Append = (run: string, afterSeq: number, entries: readonly JournalEntry[]) => number;

/** Appends lines after `afterSeq` in one transaction: all of them or none. Gives the `seq` of the last. */
export function append(db: Database, trace: Trace): Append {
  const stored = headOf(db, trace);
  // This program alone writes here, so that what it wrote last is where a run stands.
  const heads = new Map<string, Head>();
  const insert = db.prepare<[string, number, string, Sum]>(
    'INSERT INTO lines (run, seq, entry, sum) VALUES (?, ?, ?, ?)',
  );
  const appendAll = (run: string, head: Head, entries: readonly JournalEntry[]): LastLine => {
    let { seq, sum } = head;
    for (const entry of entries) {
      seq += 1;
      const text = textOf(run, seq, entry);
      sum = sumOfLine(sum, seq, text);
      insert.run(run, seq, text, sum);
    }
    return { seq, sum, atMs: entries.at(-1)?.atMs ?? 0 };
  };
  const nameOf = db.prepare<[string], { readonly title: string; readonly made_at_ms: number }>(
    'SELECT title, made_at_ms FROM runs WHERE run = ?',
  );

  /** A run of before there were traces is given one. */
  function traced(run: string): void {
    if (trace.of(run) !== undefined) return;
    const row = nameOf.get(run);
    trace.begin(run, row?.title ?? '', row?.made_at_ms ?? 0);
  }

  return (run, afterSeq, entries) => {
    const head = heads.get(run) ?? stored(run);
    if (head === undefined) throw new JournalError('no-such-run', `there is no run ${run} in the journal`);
    if (head.seq !== afterSeq)
      throw new JournalError(
        'conflict',
        `run ${run} stands at line ${head.seq}, and not at ${afterSeq} as its writer believed: read it again before going on`,
      );
    if (entries.length === 0) return afterSeq;
    traced(run);
    const last = inTransaction(db, 'immediate', () => appendAll(run, head, entries));
    heads.set(run, last);
    trace.note(run, last);
    return last.seq;
  };
}

/** Whatever could not be read back is refused before it is acknowledged: JSON turns NaN into null without a word. */
function textOf(run: string, seq: number, entry: JournalEntry): string {
  const fault = faultOfEntry(entry);
  if (fault === undefined) return JSON.stringify(entry);
  throw new JournalError('bad-entry', `line ${seq} of run ${run} cannot be kept (${fault}): ${JSON.stringify(entry)}`);
}
