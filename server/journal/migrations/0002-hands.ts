import type { Migration } from './migration.ts';

/** What was learnt of people who agreed to it: one row a run, since one person turned its wheel. `person`: the name without its capitals. */
export const hands: Migration = {
  version: 2,
  sql: `
    CREATE TABLE hands (
      run         TEXT PRIMARY KEY REFERENCES runs (run),
      person      TEXT NOT NULL,
      name        TEXT NOT NULL,
      learnt      TEXT NOT NULL CHECK (json_valid(learnt)),
      kept_at_ms  REAL NOT NULL
    ) STRICT;
    CREATE INDEX hands_by_person ON hands (person);
  `,
};
