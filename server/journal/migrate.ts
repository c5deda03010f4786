import { type Database, inTransaction } from './database/database.ts';
import { JournalError } from './journalError.ts';
import type { Migration } from './migrations/migration.ts';

/** Stands in the header of every journal, so that no other program's database is taken for one: "BtMk". */
export const APPLICATION_ID = 0x42_74_4d_6b;

/**
 * Brings a database up to the end of `history`, each step in its own transaction, so that a failing or interrupted one leaves
 * the version before it whole. Throws JournalError `not-a-journal` or `too-new` before anything is written.
 */
export function migrate(db: Database, history: readonly Migration[]): void {
  const standsAt = versionOf(db);
  const newest = history.at(-1)?.version ?? 0;
  if (standsAt > newest)
    throw new JournalError(
      'too-new',
      `${db.file} was written by a newer By the Mark (journal version ${standsAt}; this program knows up to ${newest}): start the newer program, or start this one with another folder (--data DIR)`,
    );
  for (const step of history) if (step.version > standsAt) take(db, step);
}

function take(db: Database, step: Migration): void {
  inTransaction(db, 'exclusive', () => {
    const before = versionOf(db);
    if (step.version !== before + 1) throw new Error(`migration ${step.version} does not follow version ${before}`);
    db.exec(step.sql);
    db.pragma(`application_id = ${APPLICATION_ID}`);
    db.pragma(`user_version = ${step.version}`);
  });
}

function versionOf(db: Database): number {
  const version = Number(db.pragma('user_version'));
  const id = Number(db.pragma('application_id'));
  if (id === APPLICATION_ID) return version;
  const isNew = id === 0 && version === 0 && db.prepare('SELECT 1 FROM sqlite_schema LIMIT 1').get() === undefined;
  if (isNew) return 0;
  throw new JournalError(
    'not-a-journal',
    `${db.file} is another program's database: move it away, or start with another folder (--data DIR)`,
  );
}
