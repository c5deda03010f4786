/** The journal: an append-only record of every run, in one SQLite file that this program holds alone. */
import type { KeptHand } from '../wire/kept/crew.ts';
import type { JournalEntry, JournalLine } from '../wire/kept/journalLine.ts';
import type { Seal, StoredRun } from '../wire/kept/storedRun.ts';
import type { Database } from './database/database.ts';
import type { Driver } from './database/openFile.ts';
import { JournalError } from './journalError.ts';
import { OPENING_WAIT_MS, openDatabase } from './openDatabase.ts';
import { append } from './sql/append.ts';
import { cutShort } from './sql/cutShort.ts';
import { forgetHand } from './sql/forgetHand.ts';
import { keepHand } from './sql/keepHand.ts';
import { keepRun } from './sql/keepRun.ts';
import { namesOfRuns } from './sql/namesOfRuns.ts';
import { readHands } from './sql/readHands.ts';
import { readLines } from './sql/readLines.ts';
import { readRun } from './sql/readRun.ts';
import { sealOf } from './sql/sealOf.ts';
import { tellSqliteErrors } from './tellSqliteErrors.ts';
import { openTrace, type Trace } from './trace.ts';

/** Every function throws JournalError; after one, the journal stands as it stood before the call. */
export interface Journal {
  /** Keeps a new run and its first line (`made`, seq 1) in one transaction; durable on return. */
  keepRun(run: StoredRun): void;
  /**
   * Appends lines in one transaction; durable on return. Gives the `seq` of the last. `afterSeq` is what the writer believes
   * to be the last: JournalError `conflict` where it is not.
   */
  append(run: string, afterSeq: number, entries: readonly JournalEntry[]): number;
  /** The names of the newest runs, newest first. */
  names(atMost: number): readonly string[];
  run(run: string): StoredRun | undefined;
  /**
   * A run's lines as they stand when the first is asked for, fetched as they are asked for; none for an unknown run. Lines may be
   * appended meanwhile. One that is missing, or not as it was kept, is `unreadable` in its place.
   */
  lines(run: string): IterableIterator<JournalLine>;
  seal(run: string): Seal;
  /** Those of the newest `atMost` runs whose end is missing: found by a glance at each; the whole check comes when a run is opened. */
  cutShort(atMost: number): readonly string[];
  /** Puts the log into the database, so that less of it hangs on a file that has no second copy. Takes tens of milliseconds. */
  settle(): void;
  /** Keeps what one run told of a person; a run that was kept before now is this person's. Durable on return. */
  keepHand(hand: KeptHand): void;
  /** Everything that is kept of people, in the order in which it was kept. */
  hands(): readonly KeptHand[];
  /** Takes out everything that is kept of a person, the name in the plans of their runs too. False where nothing was kept. */
  forgetHand(name: string): boolean;
  /** Lets go of the file. May be called twice. */
  close(): void;
}

interface JournalPlace {
  readonly file: string;
  readonly waitMs?: number;
  /** Which SQLite; left out: the usual one here. */
  readonly driver?: Driver;
}

/**
 * Opens the journal in `file`, making it and its folder where there is none, and takes it for this program alone.
 * `waitMs`: how long to wait for a program that still holds it. Throws JournalError.
 */
export function openJournal({ file, waitMs = OPENING_WAIT_MS, driver }: JournalPlace): Journal {
  const db = tellSqliteErrors(file, () => openDatabase(file, waitMs, driver));
  try {
    return tellSqliteErrors(file, () => journalOn(db, openTrace(`${file}-trace`)));
  } catch (error) {
    db.close();
    throw error;
  }
}

/** The journal on a database that is open and up to date, and its trace. */
export function journalOn(db: Database, trace: Trace): Journal {
  const verbs = {
    keepRun: keepRun(db, trace),
    append: append(db, trace),
    namesOfRuns: namesOfRuns(db, trace),
    readRun: readRun(db, trace),
    readLines: readLines(db, trace),
    sealOf: sealOf(db, trace),
    cutShort: cutShort(db, trace),
    keepHand: keepHand(db),
    readHands: readHands(db),
    forgetHand: forgetHand(db),
  };
  const tell = <T>(act: () => T): T => {
    if (!db.isOpen) throw new JournalError('closed', `the journal ${db.file} has been closed`);
    return tellSqliteErrors(db.file, act);
  };
  return {
    keepRun: (run) => tell(() => verbs.keepRun(run)),
    append: (run, afterSeq, entries) => tell(() => verbs.append(run, afterSeq, entries)),
    names: (atMost) => tell(() => verbs.namesOfRuns(atMost)),
    run: (run) => tell(() => verbs.readRun(run)),
    *lines(run) {
      const lines = verbs.readLines(run);
      for (;;) {
        const next = tell(() => lines.next());
        if (next.done) return;
        yield next.value;
      }
    },
    seal: (run) => tell(() => verbs.sealOf(run)),
    cutShort: (atMost) => tell(() => verbs.cutShort(verbs.namesOfRuns(atMost))),
    settle: () =>
      tell(() => {
        db.pragma('wal_checkpoint(TRUNCATE)');
        trace.settle();
      }),
    keepHand: (hand) => tell(() => verbs.keepHand(hand)),
    hands: () => tell(() => verbs.readHands()),
    forgetHand: (name) => tell(() => verbs.forgetHand(name)),
    close: () => {
      db.close();
      trace.close();
    },
  };
}
