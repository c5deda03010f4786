import { crewKey } from '../../wire/kept/crew.ts';
import type { Sum } from '../chain.ts';
import { type Database, inTransaction } from '../database/database.ts';
import { isRowAsKept, type RunRow, sumOfRow } from '../runRow.ts';

/**
 * Takes out everything that is kept of a person, and the name from the plans of runs that were made for them; the runs stay.
 * What is taken out is overwritten on the disk: https://www.sqlite.org/pragma.html#pragma_secure_delete (from memory).
 * False where nothing was kept.
 */
export function forgetHand(db: Database): (name: string) => boolean {
  db.pragma('secure_delete = ON');
  const names = db.prepare<[string], { readonly name: string }>('SELECT DISTINCT name FROM hands WHERE person = ?');
  const takeOut = db.prepare<[string]>('DELETE FROM hands WHERE person = ?');
  const madeFor = db.prepare<[string], RunRow>(
    `SELECT * FROM runs WHERE CASE WHEN json_valid(plan) THEN json_extract(plan, '$.crew.tiltHand') = ? END`,
  );
  const unname = db.prepare<[string]>(
    `UPDATE runs SET plan = json_remove(plan, '$.crew.tiltHand', '$.crew.learnt'),
                     setup = json_remove(setup, '$.crew.tiltHand', '$.crew.learnt')
     WHERE run = ?`,
  );
  const row = db.prepare<[string], RunRow>('SELECT * FROM runs WHERE run = ?');
  const seal = db.prepare<[Sum, string]>('UPDATE runs SET sum = ? WHERE run = ?');

  function forgetIn(before: RunRow): void {
    unname.run(before.run);
    const now = row.get(before.run);
    // A new checksum would make a damaged run look whole.
    if (now !== undefined && before.sum !== null && isRowAsKept(before)) seal.run(sumOfRow(now), before.run);
  }

  const forget = (name: string): boolean => {
    const person = crewKey(name);
    for (const { name: written } of names.all(person)) for (const run of madeFor.all(written)) forgetIn(run);
    return takeOut.run(person).changes > 0;
  };
  return (name) => {
    const isForgotten = inTransaction(db, 'immediate', () => forget(name));
    // The log still holds the pages as they were; it is written over only when it is put into the database.
    if (isForgotten) db.pragma('wal_checkpoint(TRUNCATE)');
    return isForgotten;
  };
}
