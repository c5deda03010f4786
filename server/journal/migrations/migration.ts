/**
 * One step of the schema's history. A migration that has been released is never edited: the next change is a new file,
 * with a database of the version before it kept in test/journal/snapshots.
 */
export interface Migration {
  /** 1, 2, 3 ...: the `user_version` of a database after it. */
  readonly version: number;
  readonly sql: string;
}
