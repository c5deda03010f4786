import type { JournalLine } from '../../wire/kept/journalLine.ts';
import type { Turns } from '../fairTurns.ts';

/** As many lines as are read at a time, so that a long record does not hold up a run. */
const LINES_AT_ONCE = 50;
/** All who read records share what the runs leave them. */
const READERS = 'readers of records';

/** The lines of a record, some at a time, each time when it is the readers' turn. */
export async function* inTurn(lines: Iterable<JournalLine>, turns: Turns): AsyncGenerator<readonly JournalLine[]> {
  const all = lines[Symbol.iterator]();
  const some = (): JournalLine[] => {
    const read: JournalLine[] = [];
    while (read.length < LINES_AT_ONCE) {
      const { done, value } = all.next();
      if (done === true) break;
      read.push(value);
    }
    return read;
  };
  for (;;) {
    const read = await turns.take(READERS, some);
    if (read.length === 0) return;
    yield read;
  }
}
