import type { Database, Statement } from './database.ts';

/** Of `node:sqlite` what is used here: https://nodejs.org/api/sqlite.html; the types of Node 20 do not know it. */
interface RuntimeStatement {
  run(...bound: unknown[]): { readonly changes: number | bigint };
  get(...bound: unknown[]): object | undefined;
  all(...bound: unknown[]): object[];
  setReadBigInts(isOn: boolean): void;
}
interface RuntimeDatabase {
  exec(sql: string): void;
  prepare(sql: string): RuntimeStatement;
  close(): void;
}
interface RuntimeSqlite {
  readonly DatabaseSync: new (file: string) => RuntimeDatabase;
}

/** The runtime's own SQLite: from Node 22.13 on; undefined where it has none. */
export function runtimeSqlite(): RuntimeSqlite | undefined {
  const { emitWarning } = process;
  // It says at its first use that it may yet change. What it gives us is held by the journal's tests.
  process.emitWarning = (warning: string | Error, ...rest: unknown[]) => {
    if (!String(warning).includes('SQLite is an experimental feature'))
      (emitWarning as (...told: unknown[]) => void).call(process, warning, ...rest);
  };
  try {
    return process.getBuiltinModule?.('node:sqlite') as RuntimeSqlite | undefined;
  } finally {
    process.emitWarning = emitWarning;
  }
}

export function openRuntimeSqlite({ DatabaseSync }: RuntimeSqlite, file: string): Database {
  const db = new DatabaseSync(file);
  let isOpen = true;
  return {
    file,
    get isOpen() {
      return isOpen;
    },
    exec: (sql) => db.exec(sql),
    pragma(text) {
      const row = db.prepare(`PRAGMA ${text}`).get();
      return row === undefined ? undefined : Object.values(row)[0];
    },
    prepare: <P extends readonly unknown[], R>(sql: string) => statementOn(db.prepare(sql)) as Statement<P, R>,
    close() {
      if (isOpen) db.close();
      isOpen = false;
    },
  };
}

const statementOn = (statement: RuntimeStatement): Statement<readonly unknown[], unknown> => ({
  run: (...bound) => ({ changes: Number(statement.run(...bound).changes) }),
  get: (...bound) => evenIfHuge(statement, () => statement.get(...bound)),
  all: (...bound) => evenIfHuge(statement, () => statement.all(...bound)),
});

/** A number that a flipped bit has made too large to be exact throws here; it is read to its nearest, as by the other driver. */
function evenIfHuge<T>(statement: RuntimeStatement, read: () => T): T {
  try {
    return read();
  } catch (error) {
    if (!(error instanceof Error && 'code' in error && error.code === 'ERR_OUT_OF_RANGE')) throw error;
  }
  statement.setReadBigInts(true);
  try {
    return withNumbers(read()) as T;
  } finally {
    statement.setReadBigInts(false);
  }
}

function withNumbers(found: unknown): unknown {
  if (Array.isArray(found)) return found.map(withNumbers);
  if (typeof found !== 'object' || found === null) return found;
  return Object.fromEntries(
    Object.entries(found).map(([column, value]) => [column, typeof value === 'bigint' ? Number(value) : value]),
  );
}
