import type { JournalEntry, JournalLine, UnreadableEntry } from '../../wire/kept/journalLine.ts';
import { isSameSum, isSum, type Sum, sumBefore, sumOfLine } from '../chain.ts';
import type { Database } from '../database/database.ts';
import { faultOfEntry } from '../storedShapes.ts';
import type { Trace } from '../trace.ts';
import { headOf } from './head.ts';
import { isDamage } from './isDamage.ts';

/** Lines fetched at a time. */
const PAGE = 500;

/** As it lies on the disk. */
interface LineRow {
  readonly seq: number;
  readonly entry: unknown;
  readonly sum: unknown;
}
type What = UnreadableEntry['what'];

/**
 * A run's lines in order, fetched as they are asked for: those that stood there when the first was asked for. Every line that was
 * ever acknowledged has its place; what is not as it was kept is `unreadable` there, and nothing of it is thrown.
 * By pages, because nothing can be committed while a statement is being stepped through, and a record that is
 * being downloaded must not hold up a run.
 */
export function readLines(db: Database, trace: Trace): (run: string) => IterableIterator<JournalLine> {
  const head = headOf(db, trace);
  const page = db.prepare<[string, number, number, number], LineRow>(
    'SELECT seq, entry, sum FROM lines WHERE run = ? AND seq > ? AND seq <= ? ORDER BY seq LIMIT ?',
  );
  const one = db.prepare<[string, number], LineRow>('SELECT seq, entry, sum FROM lines WHERE run = ? AND seq = ?');
  const rowSum = db.prepare<[string], { readonly sum: unknown }>('SELECT sum FROM runs WHERE run = ?');

  function lastOf(run: string): number {
    return orIfDamaged(() => head(run)?.seq ?? 0, trace.of(run)?.last?.seq ?? 1);
  }

  /** The rows behind `seq` of which any are left; where a page of the database is damaged, each is asked for by itself. */
  function rowsBehind(run: string, seq: number, upTo: number): readonly LineRow[] {
    return orIfDamaged(
      () => page.all(run, seq, upTo, PAGE),
      () => {
        const some = Array.from({ length: Math.min(PAGE, upTo - seq) }, (_, index) => seq + 1 + index);
        return some.flatMap((each) => orIfDamaged(() => one.get(run, each), undefined) ?? []);
      },
    );
  }

  return function* lines(run) {
    const upTo = lastOf(run);
    const isFromBefore = orIfDamaged(() => rowSum.get(run)?.sum === null, false) && upTo > 0;
    const check = createCheck(run, isFromBefore, trace);
    for (let seq = 0; seq < upTo; ) {
      const from = seq;
      for (const row of rowsBehind(run, from, upTo)) {
        // Out of order, or no number at all: its own place will be found empty.
        if (!Number.isInteger(row.seq) || row.seq <= seq || row.seq > upTo) continue;
        while (seq + 1 < row.seq) yield check.missing(++seq);
        seq += 1;
        yield check.line(seq, row);
      }
      if (seq > from) continue;
      const upToHere = Math.min(upTo, from + PAGE);
      while (seq < upToHere) yield check.missing(++seq);
    }
  };
}

/** Looks at one line after the other, from the first. */
function createCheck(run: string, isFromBefore: boolean, trace: Trace) {
  let atMs = trace.of(run)?.madeAtMs ?? 0;
  /** What the next line's checksum may cover: as the line before is stored, and as it should be. */
  let before: readonly Sum[] = [];
  let isChained = !isFromBefore;
  let isBehindMissing = false;

  const unreadable = (seq: number, what: What, found?: unknown): JournalLine => ({
    seq,
    kind: 'unreadable',
    atMs,
    what,
    ...(typeof found === 'string' ? { found } : {}),
  });

  function fits(covered: readonly Sum[], seq: number, entry: string, sum: unknown): boolean {
    if (sum === null) return !isChained;
    const traced = trace.of(run)?.last;
    if (traced?.seq === seq && !isSameSum(traced.sum, sum)) return false;
    return covered.some((each) => isSameSum(sumOfLine(each, seq, entry), sum));
  }

  return {
    missing(seq: number): JournalLine {
      before = [];
      isBehindMissing = true;
      return unreadable(seq, 'missing');
    },
    line(seq: number, { entry, sum }: LineRow): JournalLine {
      const isText = typeof entry === 'string';
      const covered = before.length === 0 ? [sumBefore(run, seq - 1)] : before;
      const isRight = isText && fits(covered, seq, entry, sum);
      const should = isText && !isRight ? covered.map((each) => sumOfLine(each, seq, entry)) : [];
      before = sum === null ? [] : [...(isSum(sum) ? [sum] : []), ...should.slice(0, 1)];
      isChained ||= sum !== null;
      const what: What = isBehindMissing && isText && isSum(sum) ? 'unchecked' : 'changed';
      isBehindMissing = false;
      if (!isRight) return unreadable(seq, what, entry);
      const value = parsed(entry);
      if (value === undefined) return unreadable(seq, 'changed', entry);
      ({ atMs } = value);
      return { seq, ...value };
    },
  };
}

function parsed(entry: string): JournalEntry | undefined {
  try {
    const value: unknown = JSON.parse(entry);
    return faultOfEntry(value) === undefined ? (value as JournalEntry) : undefined;
  } catch {
    return undefined;
  }
}

/** What `act` gives; where the database is damaged there, the other. */
function orIfDamaged<T>(act: () => T, other: T | (() => T)): T {
  try {
    return act();
  } catch (error) {
    if (!isDamage(error)) throw error;
    return other instanceof Function ? other() : other;
  }
}
