import type { StoredRun } from '../../wire/kept/storedRun.ts';
import type { Database } from '../database/database.ts';
import { damagedRun, type RunRow, runOfRow } from '../runRow.ts';
import type { Trace, TracedRun } from '../trace.ts';

export function readRun(db: Database, trace: Trace): (run: string) => StoredRun | undefined {
  const select = db.prepare<[string], RunRow>('SELECT * FROM runs WHERE run = ?');
  return (run) => {
    const row = select.get(run);
    if (row !== undefined) return runOfRow(row);
    const traced = trace.of(run);
    if (traced === undefined || isNeverMade(traced)) return undefined;
    throw damagedRun(run, 'it was kept, and its plan is not there any more');
  };
}

/** Begun, and the power failed before it was kept: it was never acknowledged. */
const isNeverMade = ({ last, endIsKnown }: TracedRun): boolean => last === null && endIsKnown;
