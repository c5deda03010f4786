import { z } from 'zod';
import type { HandEstimate } from '../core/hand/learn/estimate.ts';
import { crewKey, type KeptHand } from '../wire/kept/crew.ts';
import { isSameSum, type Sum, sumOfFields } from './chain.ts';
import { JournalError } from './journalError.ts';
import { firstFault } from './storedShapes.ts';

/** A row of the table `hands`. */
export interface HandRow {
  readonly run: string;
  readonly person: string;
  readonly name: string;
  readonly learnt: string;
  readonly kept_at_ms: number;
  /** Of all the others; null where it was kept before there were checksums. */
  readonly sum: Sum | null;
}

const positive = z.number().positive();
const estimate: z.ZodType<HandEstimate> = z.looseObject({
  median: positive,
  error: positive,
  spread: z.number().nonnegative(),
  turns: z.int().positive(),
});
const learnt = z.looseObject({ reactionS: estimate.nullable(), turnsPerS: estimate.nullable() });

export function rowOfHand({ run, name, keptAtMs, reactionS, turnsPerS }: KeptHand): HandRow {
  const row = {
    run,
    person: crewKey(name),
    name,
    learnt: JSON.stringify({ reactionS, turnsPerS }),
    kept_at_ms: keptAtMs,
  };
  return { ...row, sum: sumOfRow(row) };
}

const sumOfRow = ({ run, person, name, learnt, kept_at_ms }: Omit<HandRow, 'sum'>): Sum =>
  sumOfFields([run, person, name, learnt, kept_at_ms]);

/** Throws JournalError `damaged`, naming the run. */
export function handOfRow(row: HandRow): KeptHand {
  if (row.sum !== null && !isSameSum(sumOfRow(row), row.sum)) throw damagedHand(row, 'it is not as it was kept');
  const parsed = learnt.safeParse(JSON.parse(row.learnt));
  if (!parsed.success) throw damagedHand(row, firstFault(parsed.error));
  const { reactionS, turnsPerS } = parsed.data;
  return { run: row.run, name: row.name, keptAtMs: row.kept_at_ms, reactionS, turnsPerS };
}

const damagedHand = ({ run, name }: HandRow, fault: string): JournalError =>
  new JournalError(
    'damaged',
    `what was learnt in run ${run} cannot be read (${fault}): forget ${name}, or put back a backup of the data folder`,
  );
