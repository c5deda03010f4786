import { createRequire } from 'node:module';
import type BetterSqlite from 'better-sqlite3';
import type { Database } from './database.ts';

/** SQLite from a package, for a runtime that has none of its own. Throws where it is not installed. */
export function openPackagedSqlite(file: string): Database {
  const Packaged = createRequire(import.meta.url)('better-sqlite3') as typeof BetterSqlite;
  const db = new Packaged(file);
  return {
    file,
    get isOpen() {
      return db.open;
    },
    exec: (sql) => void db.exec(sql),
    pragma: (text) => db.pragma(text, { simple: true }),
    prepare: (sql) => db.prepare(sql) as never,
    close: () => void db.close(),
  };
}
