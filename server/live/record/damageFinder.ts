import { type Damage, damagedLines, unknownEnd } from '../../wire/kept/damage.ts';
import type { JournalLine } from '../../wire/kept/journalLine.ts';

interface Place {
  readonly seq: number;
  readonly sinceMs: number | null;
}
export interface FoundDamage {
  readonly damage: Damage | null;
  /** What the run itself has not been told yet, for its journal; null where nothing is new. */
  readonly untold: { readonly fromLine: number; readonly toLine: number | null } | null;
}

/** Looks for damage while a run's lines go by, from the first to the last. */
export function createDamageFinder() {
  let first: Place | null = null;
  let last = 0;
  let count = 0;
  let untold: readonly number[] = [];
  let toldEnd: Place | null = null;
  let sinceMs: number | null = null;
  let seq = 0;

  return {
    line(line: JournalLine): void {
      ({ seq } = line);
      if (line.kind === 'unreadable') {
        first ??= { seq, sinceMs };
        last = seq;
        count += 1;
        untold = [...untold, seq];
        return;
      }
      if (line.kind === 'damaged') {
        const { fromLine, toLine } = line;
        untold = untold.filter((each) => each < fromLine || (toLine !== null && each > toLine));
        if (toLine === null) toldEnd ??= { seq: fromLine, sinceMs };
      }
      sinceMs = line.atMs;
    },
    found(endIsKnown: boolean): FoundDamage {
      const lostEnd = endIsKnown || toldEnd !== null ? null : { seq: seq + 1, sinceMs };
      const end = toldEnd ?? lostEnd;
      const damage =
        first !== null
          ? damagedLines(first.seq, last, count, first.sinceMs)
          : end !== null
            ? unknownEnd(end.seq, end.sinceMs)
            : null;
      const fromLine = untold[0] ?? lostEnd?.seq;
      if (fromLine === undefined) return { damage, untold: null };
      return { damage, untold: { fromLine, toLine: lostEnd === null ? (untold.at(-1) ?? fromLine) : null } };
    },
  };
}
