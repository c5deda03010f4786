import type { Seal } from '../../wire/kept/storedRun.ts';
import type { Database } from '../database/database.ts';
import type { Trace } from '../trace.ts';
import { isDamage } from './isDamage.ts';

/** A run's title and time as far as anything still tells them, and what of it can be checked. */
export function sealOf(db: Database, trace: Trace): (run: string) => Seal {
  const select = db.prepare<[string], { readonly title: string; readonly made_at_ms: number; readonly sum: unknown }>(
    'SELECT title, made_at_ms, sum FROM runs WHERE run = ?',
  );
  return (run) => {
    const traced = trace.of(run);
    const row = orUndefined(() => select.get(run));
    const isChecked = row?.sum !== null;
    return {
      title: traced?.title ?? row?.title ?? null,
      madeAtMs: traced?.madeAtMs ?? row?.made_at_ms ?? null,
      isChecked,
      endIsKnown: traced === undefined ? !isChecked : traced.endIsKnown,
    };
  };
}

function orUndefined<T>(act: () => T): T | undefined {
  try {
    return act();
  } catch (error) {
    if (isDamage(error)) return undefined;
    throw error;
  }
}
