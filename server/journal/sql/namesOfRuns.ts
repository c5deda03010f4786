import type { Database } from '../database/database.ts';
import type { Trace } from '../trace.ts';
import { isDamage } from './isDamage.ts';

interface Named {
  readonly run: string;
  readonly made_at_ms: number;
}

/**
 * The newest `atMost`, newest first; of two made in the same millisecond, the one kept later. A run whose trace is there belongs to
 * them, whatever the database has lost.
 */
export function namesOfRuns(db: Database, trace: Trace): (atMost: number) => readonly string[] {
  const select = db.prepare<[number], Named>(
    'SELECT run, made_at_ms FROM runs ORDER BY made_at_ms DESC, rowid DESC LIMIT ?',
  );
  const stored = (atMost: number): readonly Named[] => {
    try {
      return select.all(atMost);
    } catch (error) {
      if (!isDamage(error)) throw error;
      return [];
    }
  };
  return (atMost) => {
    const found = stored(atMost);
    const known = new Set(found.map(({ run }) => run));
    const lost = trace
      .runs()
      .filter(({ run, last }) => last !== null && !known.has(run))
      .map(({ run, madeAtMs }) => ({ run, made_at_ms: madeAtMs ?? 0 }))
      .toReversed();
    return [...found, ...lost]
      .toSorted((a, b) => b.made_at_ms - a.made_at_ms)
      .slice(0, atMost)
      .map(({ run }) => run);
  };
}
