import type { KeptHand } from '../../wire/kept/crew.ts';
import type { Database } from '../database/database.ts';
import { type HandRow, handOfRow } from '../storedHand.ts';

/** Everything that is kept of people, in the order in which it was kept. */
export function readHands(db: Database): () => readonly KeptHand[] {
  const select = db.prepare<[], HandRow>('SELECT * FROM hands ORDER BY kept_at_ms, run');
  return () => select.all().map(handOfRow);
}
