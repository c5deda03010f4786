import { isSum, type Sum, sumBefore } from '../chain.ts';
import type { Database } from '../database/database.ts';
import type { Trace } from '../trace.ts';

/** A run can be written between the last note of its trace and a sudden end, but no more than one group of lines. */
const AHEAD_OF_TRACE = 10_000;

export interface Head {
  /** The last line that was ever acknowledged, whether or not it is still there. */
  readonly seq: number;
  /** What the checksum of the next line covers. */
  readonly sum: Sum;
}

/** Where a run stands; undefined where there is no such run (every run has its first line). */
export function headOf(db: Database, trace: Trace): (run: string) => Head | undefined {
  // A number that a flipped bit has made huge is nobody's last line.
  const select = db.prepare<[string, number], { readonly seq: number; readonly sum: unknown }>(
    'SELECT seq, sum FROM lines WHERE run = ? AND seq <= ? ORDER BY seq DESC LIMIT 1',
  );
  const count = db.prepare<[string], { readonly lines: number }>('SELECT count(*) AS lines FROM lines WHERE run = ?');
  return (run) => {
    const traced = trace.of(run)?.last ?? null;
    const row = select.get(run, (traced?.seq ?? count.get(run)?.lines ?? 0) + AHEAD_OF_TRACE);
    if (row === undefined && traced === null) return undefined;
    const seq = Math.max(row?.seq ?? 0, traced?.seq ?? 0);
    return { seq, sum: row?.seq === seq && isSum(row.sum) ? row.sum : sumBefore(run, seq) };
  };
}
