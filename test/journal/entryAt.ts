import type { JournalEntry } from '../../server/wire/kept/journalLine.ts';

/** The entry that a test's writer puts at a `seq`; some are longer than a page of the database, so that a write takes several. */
export function entryAt(seq: number): JournalEntry {
  return seq % 11 === 0
    ? { kind: 'signal-lost', atMs: seq, lifeline: 'travel', detail: `${seq} `.repeat(1500) }
    : { kind: 'moved', atMs: seq, mm: seq / 8, id: `m${seq}` };
}
