import type { z } from 'zod';
import type { Plan } from '../core/plan.ts';
import type { StoredRun } from '../wire/storedRun.ts';
import { JournalError } from './journalError.ts';
import { clips, feedChoice, firstFault, planFormat, setup } from './shapes.ts';

/** A row of the table `runs`. */
export interface RunRow {
  readonly run: string;
  readonly title: string;
  readonly feed: string;
  readonly plan: string;
  readonly setup: string;
  readonly clips: string;
  readonly made_at_ms: number;
}

export const rowOfRun = (stored: StoredRun): RunRow => ({
  run: stored.run,
  title: stored.title,
  feed: JSON.stringify(stored.feed),
  plan: JSON.stringify(stored.plan),
  setup: JSON.stringify(stored.setup),
  clips: JSON.stringify(stored.clips),
  made_at_ms: stored.madeAtMs,
});

/** Throws JournalError `damaged`, naming the run and what is wrong with it. */
export function runOfRow(row: RunRow): StoredRun {
  const read = <T>(column: 'feed' | 'plan' | 'setup' | 'clips', shape: z.ZodType<T>): T => {
    const parsed = shape.safeParse(JSON.parse(row[column]));
    if (parsed.success) return parsed.data;
    throw new JournalError(
      'damaged',
      `run ${row.run} cannot be read (${column}, ${firstFault(parsed.error)}): put back a backup of the data folder`,
    );
  };
  return {
    run: row.run,
    title: row.title,
    feed: read('feed', feedChoice),
    plan: read('plan', planFormat) as unknown as Plan,
    setup: read('setup', setup),
    clips: read('clips', clips),
    madeAtMs: row.made_at_ms,
  };
}
