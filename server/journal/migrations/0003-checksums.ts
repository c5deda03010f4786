import type { Migration } from './migration.ts';

/** Checksums (see `chain.ts`). Null: kept before there were any. */
export const checksums: Migration = {
  version: 3,
  sql: `
    ALTER TABLE runs  ADD COLUMN sum BLOB;
    ALTER TABLE lines ADD COLUMN sum BLOB;
    ALTER TABLE hands ADD COLUMN sum BLOB;
  `,
};
