import type { KeptHand } from '../../wire/kept/crew.ts';
import { type Database, inTransaction } from '../database/database.ts';
import { JournalError } from '../journalError.ts';
import { type HandRow, rowOfHand } from '../storedHand.ts';

/** Keeps what one run told of a person; a run that was kept before now is this person's. */
export function keepHand(db: Database): (hand: KeptHand) => void {
  const exists = db.prepare<[string]>('SELECT 1 FROM runs WHERE run = ?');
  const put = db.prepare<[HandRow]>(
    `INSERT OR REPLACE INTO hands (run, person, name, learnt, kept_at_ms, sum)
     VALUES (@run, @person, @name, @learnt, @kept_at_ms, @sum)`,
  );
  const keep = (hand: KeptHand): void => {
    if (exists.get(hand.run) === undefined)
      throw new JournalError('no-such-run', `there is no run ${hand.run} in the journal`);
    put.run(rowOfHand(hand));
  };
  return (hand) => inTransaction(db, 'immediate', () => keep(hand));
}
