import type { RunEvent } from '../../core/run/engine/events.ts';
import { isEvent, type JournalLine } from '../../wire/kept/journalLine.ts';
import type { JournalPort } from '../livePorts.ts';

/** What happened in a run, from its journal, as far as it can be read; `onLine` is told of every line. */
export function* eventsOf(
  journal: JournalPort,
  run: string,
  onLine?: (line: JournalLine) => void,
): Generator<RunEvent> {
  for (const line of journal.lines(run)) {
    onLine?.(line);
    const { seq: _, ...entry } = line;
    if (isEvent(entry)) yield entry;
  }
}
