import type { z } from 'zod';
import { plainNotation } from '../core/figures/notation.ts';
import type { Plan } from '../core/plan/plan.ts';
import type { StoredRun } from '../wire/kept/storedRun.ts';
import { isSameSum, type Sum, sumOfFields } from './chain.ts';
import { JournalError } from './journalError.ts';
import { clips, feedChoice, firstFault, planFormat, setup } from './storedShapes.ts';

/** A row of the table `runs`. */
export interface RunRow {
  readonly run: string;
  readonly title: string;
  readonly feed: string;
  readonly plan: string;
  readonly setup: string;
  readonly clips: string;
  readonly made_at_ms: number;
  /** Of all the others; null in runs that were kept before there were checksums. */
  readonly sum: Sum | null;
}

export function rowOfRun(stored: StoredRun): RunRow {
  const row = {
    run: stored.run,
    title: stored.title,
    feed: JSON.stringify(stored.feed),
    plan: JSON.stringify(stored.plan),
    setup: JSON.stringify(stored.setup),
    clips: JSON.stringify(stored.clips),
    made_at_ms: stored.madeAtMs,
  };
  return { ...row, sum: sumOfRow(row) };
}

export const sumOfRow = ({ run, title, feed, plan, setup, clips, made_at_ms }: Omit<RunRow, 'sum'>): Sum =>
  sumOfFields([run, title, feed, plan, setup, clips, made_at_ms]);

export const isRowAsKept = (row: RunRow): boolean => row.sum === null || isSameSum(sumOfRow(row), row.sum);

/** Throws JournalError `damaged`, naming the run and what is wrong with it. */
export function runOfRow(row: RunRow): StoredRun {
  const read = <T>(column: 'feed' | 'plan' | 'setup' | 'clips', shape: z.ZodType<T>): T => {
    const parsed = shape.safeParse(parsedJson(row[column]));
    if (parsed.success) return parsed.data;
    throw damagedRun(row.run, `${column}, ${firstFault(parsed.error)}`);
  };
  const stored = {
    run: row.run,
    title: row.title,
    feed: read('feed', feedChoice),
    plan: toldInNotation(read('plan', planFormat) as unknown as Plan),
    setup: read('setup', setup),
    clips: read('clips', clips),
    madeAtMs: row.made_at_ms,
  };
  // Last, because a shape that is wrong says more.
  if (!isRowAsKept(row)) throw damagedRun(row.run, 'what it was made with is not as it was kept');
  return stored;
}

/** What its journal holds can still be read as far as it is whole. */
export const damagedRun = (run: string, fault: string): JournalError =>
  new JournalError(
    'damaged',
    `run ${run} cannot be read (${fault}): put back a backup of the data folder, or make the run anew from its job`,
  );

function parsedJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

/** Plans that were made before notations were kept are told in the plain one of their units. */
const toldInNotation = (plan: Plan): Plan => ({ ...plan, notation: plan.notation ?? plainNotation(plan.units) });
