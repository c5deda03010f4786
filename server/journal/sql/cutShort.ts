import { isSameSum } from '../chain.ts';
import type { Database } from '../database/database.ts';
import type { Trace } from '../trace.ts';
import { isDamage } from './isDamage.ts';

/** Which of these runs lack the last line that their trace knows, or have another in its place. A glance, not the whole check. */
export function cutShort(db: Database, trace: Trace): (runs: readonly string[]) => readonly string[] {
  const sumAt = db.prepare<[string, number], { readonly sum: unknown }>(
    'SELECT sum FROM lines WHERE run = ? AND seq = ?',
  );
  const lacksEnd = (run: string): boolean => {
    const last = trace.of(run)?.last ?? null;
    if (last === null) return false;
    try {
      return !isSameSum(last.sum, sumAt.get(run, last.seq)?.sum);
    } catch (error) {
      if (isDamage(error)) return true;
      throw error;
    }
  };
  return (runs) => runs.filter(lacksEnd);
}
