/** What a live run needs of the rooms that it does not import; `app.ts` hands them in. */
import type { Plan } from '../core/plan.ts';
import type { RunSetup } from '../core/run/state.ts';
import type { FeedChoice, JournalEntry, JournalLine } from '../wire/journalLine.ts';
import type { Clip } from '../wire/messages.ts';

/** What a run is made from; kept with it, so that a restart needs nothing else. */
export interface StoredRun {
  readonly run: string;
  readonly title: string;
  readonly feed: FeedChoice;
  readonly plan: Plan;
  readonly setup: RunSetup;
  readonly clips: readonly Clip[];
  readonly madeAtMs: number;
}

export interface JournalPort {
  /** Keeps a new run and its first line (`made`, seq 1) in one transaction; durable on return. */
  keepRun(run: StoredRun): void;
  /** Appends lines in one transaction; durable on return. Gives the `seq` of the last. `afterSeq` is what the writer believes to be the last: a conflict throws. */
  append(run: string, afterSeq: number, entries: readonly JournalEntry[]): number;
  /** The newest runs, newest first. */
  runs(atMost: number): readonly StoredRun[];
  run(run: string): StoredRun | undefined;
  lines(run: string): IterableIterator<JournalLine>;
}
