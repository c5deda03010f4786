import type { Migration } from './migration.ts';

/** Runs, and the lines of their journals. Lines are only ever added: two triggers hold it. */
export const runsAndLines: Migration = {
  version: 1,
  sql: `
    CREATE TABLE runs (
      run         TEXT PRIMARY KEY,
      title       TEXT NOT NULL,
      feed        TEXT NOT NULL CHECK (json_valid(feed)),
      plan        TEXT NOT NULL CHECK (json_valid(plan)),
      setup       TEXT NOT NULL CHECK (json_valid(setup)),
      clips       TEXT NOT NULL CHECK (json_valid(clips)),
      made_at_ms  REAL NOT NULL
    ) STRICT;
    CREATE INDEX runs_by_age ON runs (made_at_ms);

    CREATE TABLE lines (
      run    TEXT NOT NULL REFERENCES runs (run),
      seq    INTEGER NOT NULL CHECK (seq >= 1),
      entry  TEXT NOT NULL CHECK (json_valid(entry)),
      PRIMARY KEY (run, seq)
    ) STRICT, WITHOUT ROWID;
    CREATE TRIGGER lines_are_not_changed BEFORE UPDATE ON lines
      BEGIN SELECT RAISE(ABORT, 'a line of a journal is never changed'); END;
    CREATE TRIGGER lines_are_not_taken_out BEFORE DELETE ON lines
      BEGIN SELECT RAISE(ABORT, 'a line of a journal is never taken out'); END;
  `,
};
