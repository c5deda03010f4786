/** What a live run needs of the rooms that it does not import; `app.ts` hands them in. */
import type { KeptHand } from '../wire/crew.ts';
import type { JournalEntry, JournalLine } from '../wire/journalLine.ts';
import type { StoredRun } from '../wire/storedRun.ts';

export interface JournalPort {
  /** Keeps a new run and its first line (`made`, seq 1) in one transaction; durable on return. */
  keepRun(run: StoredRun): void;
  /** Appends lines in one transaction; durable on return. Gives the `seq` of the last. `afterSeq` is what the writer believes to be the last: a conflict throws. */
  append(run: string, afterSeq: number, entries: readonly JournalEntry[]): number;
  /** The names of the newest runs, newest first. */
  names(atMost: number): readonly string[];
  run(run: string): StoredRun | undefined;
  lines(run: string): IterableIterator<JournalLine>;
}

/** What is kept of the crew. */
export interface HandsPort {
  /** Keeps what one run told of a person; a run that was kept before now is this person's. Durable on return. */
  keepHand(hand: KeptHand): void;
  /** In the order in which it was kept. */
  hands(): readonly KeptHand[];
  /** Takes out everything that is kept of a person, the name in the plans of their runs too. False where nothing was kept. */
  forgetHand(name: string): boolean;
}
