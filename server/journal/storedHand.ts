import { z } from 'zod';
import type { Estimate } from '../core/hand/learn/estimate.ts';
import { crewKey, type KeptHand } from '../wire/crew.ts';
import { JournalError } from './journalError.ts';
import { firstFault } from './shapes.ts';

/** A row of the table `hands`. */
export interface HandRow {
  readonly run: string;
  readonly person: string;
  readonly name: string;
  readonly learnt: string;
  readonly kept_at_ms: number;
}

const positive = z.number().positive();
const estimate: z.ZodType<Estimate> = z.looseObject({
  median: positive,
  error: positive,
  spread: z.number().nonnegative(),
  turns: z.int().positive(),
});
const learnt = z.looseObject({ reactionS: estimate.nullable(), turnsPerS: estimate.nullable() });

export const rowOfHand = ({ run, name, keptAtMs, reactionS, turnsPerS }: KeptHand): HandRow => ({
  run,
  person: crewKey(name),
  name,
  learnt: JSON.stringify({ reactionS, turnsPerS }),
  kept_at_ms: keptAtMs,
});

/** Throws JournalError `damaged`, naming the run. */
export function handOfRow(row: HandRow): KeptHand {
  const parsed = learnt.safeParse(JSON.parse(row.learnt));
  if (!parsed.success)
    throw new JournalError(
      'damaged',
      `what was learnt in run ${row.run} cannot be read (${firstFault(parsed.error)}): put back a backup of the data folder`,
    );
  const { reactionS, turnsPerS } = parsed.data;
  return { run: row.run, name: row.name, keptAtMs: row.kept_at_ms, reactionS, turnsPerS };
}
