/** What the journal asks of SQLite, whichever program brings it: the runtime's own, or a package where the runtime has none. */

type Bound = string | number | null | Uint8Array;

export interface Statement<P extends readonly unknown[], R> {
  run(...bound: P): { readonly changes: number };
  get(...bound: P): R | undefined;
  all(...bound: P): readonly R[];
}

/** Everything throws what SQLite does; `sqliteCode` says what that is. */
export interface Database {
  readonly file: string;
  readonly isOpen: boolean;
  exec(sql: string): void;
  /** Sets or asks; the value, where it gives one. */
  pragma(text: string): unknown;
  /** Parameters in their order, or one object of them by their names; rows by the names of their columns. */
  prepare<P extends readonly (Bound | object)[], R = unknown>(sql: string): Statement<P, R>;
  /** May be called twice. */
  close(): void;
}

/** All of `act` or, where it throws, none of it. `exclusive` waits for every reader, `immediate` for writers only. */
export function inTransaction<T>(db: Database, kind: 'immediate' | 'exclusive', act: () => T): T {
  db.exec(`BEGIN ${kind}`);
  try {
    const done = act();
    db.exec('COMMIT');
    return done;
  } catch (error) {
    rollBack(db);
    throw error;
  }
}

function rollBack(db: Database): void {
  try {
    db.exec('ROLLBACK');
  } catch {
    // SQLite has done so by itself, as it does when the disk is full or fails.
  }
}
