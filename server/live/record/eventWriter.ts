import type { JournalEntry } from '../../wire/kept/journalLine.ts';
import type { Answer } from '../../wire/message/messages.ts';
import type { JournalPort } from '../livePorts.ts';

/** How long a reading that sets nothing off may wait for others, so that one commit serves them all. */
const GROUP_MS = 15;

const atOnce = (_run: string, work: () => void): void => work();

interface Waiting {
  readonly entries: readonly JournalEntry[];
  readonly settle: (answer: Answer) => void;
}

/** Writes a run's lines in their order; what it answers with is durable. */
export function createEventWriter(needs: {
  readonly journal: JournalPort;
  readonly run: string;
  readonly nowMs: () => number;
  /** The run's last line. */
  readonly last: { readonly seq: number; readonly atMs: number };
  /** Has a piece of a run's work done when it is that run's turn; left out: at once. */
  readonly inTurn?: (run: string, work: () => void) => void;
  /** Told of all that is kept, and of what will be with the next thing that is. */
  readonly onTaken?: (entries: readonly JournalEntry[]) => void;
  /** Called once, when the journal fails: from then on nothing is taken. */
  readonly onBroken: (message: string) => void;
}) {
  const { journal, run, nowMs, last, inTurn = atOnce, onTaken, onBroken } = needs;
  let seq = last.seq;
  let stampedMs = last.atMs;
  let broken: string | null = null;
  let waiting: Waiting[] = [];
  let timer: NodeJS.Timeout | undefined;

  function flush(): void {
    clearTimeout(timer);
    timer = undefined;
    if (waiting.length === 0) return;
    const group = waiting;
    waiting = [];
    if (!write(group.flatMap(({ entries }) => entries))) {
      for (const { settle } of group) settle(notKept());
      return;
    }
    let at = seq - group.reduce((count, { entries }) => count + entries.length, 0);
    for (const { entries, settle } of group) {
      settle({ ok: true, seq: at + 1 });
      at += entries.length;
    }
  }

  function write(entries: readonly JournalEntry[]): boolean {
    if (broken !== null) return false;
    try {
      seq = journal.append(run, seq, entries);
      return true;
    } catch (error) {
      broken = error instanceof Error ? error.message : String(error);
      onBroken(broken);
      return false;
    }
  }

  const notKept = (): Answer => ({
    ok: false,
    error: {
      code: 'not-kept',
      message: `the journal cannot be written: ${broken}; stop the feed, mend that, and start the server again`,
    },
  });

  return {
    seq: () => seq,
    isSound: () => broken === null,
    /** The time for the next line: never before the last one's, whatever the clock does. */
    stamp(): number {
      stampedMs = Math.max(stampedMs, Math.round(nowMs() * 10) / 10);
      return stampedMs;
    },
    /** Durable on return; answers with the `seq` of the first of the lines. */
    now(entries: readonly JournalEntry[]): Promise<Answer> {
      flush();
      if (!write(entries)) return Promise.resolve(notKept());
      onTaken?.(entries);
      return Promise.resolve({ ok: true, seq: seq - entries.length + 1 });
    },
    /** Durable within a few milliseconds, or with the next thing that is. */
    group(entries: readonly JournalEntry[]): Promise<Answer> {
      onTaken?.(entries);
      timer ??= setTimeout(() => inTurn(run, flush), GROUP_MS);
      return new Promise((settle) => waiting.push({ entries, settle }));
    },
    flush,
  };
}
