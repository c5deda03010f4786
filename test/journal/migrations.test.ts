import { copyFileSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Database } from '../../server/journal/database/database.ts';
import { openFile } from '../../server/journal/database/openFile.ts';
import { APPLICATION_ID, migrate } from '../../server/journal/migrate.ts';
import { runsAndLines } from '../../server/journal/migrations/0001-runs-and-lines.ts';
import { HISTORY } from '../../server/journal/migrations/history.ts';
import type { Migration } from '../../server/journal/migrations/migration.ts';
import { openJournal } from '../../server/journal/openJournal.ts';
import { freeDataDir } from '../kit/freeDataDir.ts';
import { madeUpHands } from './madeUpHands.ts';

const snapshots = join(import.meta.dirname, 'snapshots');
const FIRST_WITH_TRACE = 3;
const schemaOf = (db: Database): readonly unknown[] =>
  db.prepare('SELECT type, name, sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY name').all();

function copyOf(version: number): Database {
  const file = join(freeDataDir(), 'journal.sqlite');
  copyFileSync(join(snapshots, `v${version}.sqlite`), file);
  return openFile(file);
}

it('numbers its steps from 1 without a gap, one file each', () => {
  expect(HISTORY.map(({ version }) => version)).toEqual(HISTORY.map((_, index) => index + 1));
  const files = readdirSync(join(import.meta.dirname, '../../server/journal/migrations')).filter((name) =>
    /^\d{4}-/.test(name),
  );
  expect(files).toHaveLength(HISTORY.length);
});

it('has a snapshot of every version, with what must be read from it', () => {
  expect(readdirSync(snapshots).sort()).toEqual(
    HISTORY.flatMap(({ version }) => [
      `v${version}.json`,
      `v${version}.sqlite`,
      ...(version < FIRST_WITH_TRACE ? [] : [`v${version}.sqlite-trace`]),
    ]).sort(),
  );
});

/** A plan that was made before notations were kept is told in the plain one of its units: all snapshots are in mm. */
const inNotation = (_: string, value: unknown): unknown =>
  typeof value === 'object' && value !== null && 'format' in value && value.format === 'by-the-mark/plan@1'
    ? { notation: 'mm', ...value }
    : value;

describe.each(HISTORY.map(({ version }) => version))('a database of version %d', (version) => {
  it('is brought up to date and reads as it was written', () => {
    const file = join(freeDataDir(), 'journal.sqlite');
    copyFileSync(join(snapshots, `v${version}.sqlite`), file);
    const journal = openJournal({ file });
    const read = journal.names(100).map((name) => ({ run: journal.run(name), lines: [...journal.lines(name)] }));
    journal.close();
    expect(read).toEqual(JSON.parse(readFileSync(join(snapshots, `v${version}.json`), 'utf8'), inNotation));
  });

  it('ends with the same schema as a new one', () => {
    const old = copyOf(version);
    const made = openFile(':memory:');
    migrate(old, HISTORY);
    migrate(made, HISTORY);
    expect(schemaOf(old)).toEqual(schemaOf(made));
  });
});

it('keeps nothing of anyone from before there was a crew, and the crew of versions 2 and 3', () => {
  const handsOf = (version: number) => {
    const file = join(freeDataDir(), 'journal.sqlite');
    copyFileSync(join(snapshots, `v${version}.sqlite`), file);
    const journal = openJournal({ file });
    const hands = journal.hands();
    journal.close();
    return hands;
  };
  expect(handsOf(1)).toEqual([]);
  expect(handsOf(2)).toEqual(madeUpHands);
  expect(handsOf(3)).toEqual(madeUpHands);
});

describe('a later step', () => {
  const later: Migration = { version: 2, sql: `ALTER TABLE runs ADD COLUMN place TEXT NOT NULL DEFAULT 'loft'` };

  it('is taken once, and keeps what was there', () => {
    const db = copyOf(1);
    for (let start = 0; start < 2; start++) migrate(db, [runsAndLines, later]);
    expect(db.pragma('user_version')).toBe(2);
    expect(db.prepare('SELECT DISTINCT place FROM runs').all()).toEqual([{ place: 'loft' }]);
  });

  it('that fails leaves the version before it whole', () => {
    const db = copyOf(1);
    const before = schemaOf(db);
    const failing: Migration = { version: 2, sql: `${later.sql}; INSERT INTO nowhere VALUES (1)` };
    expect(() => migrate(db, [runsAndLines, failing])).toThrow('nowhere');
    expect(schemaOf(db)).toEqual(before);
    expect(db.pragma('user_version')).toBe(1);
    expect(db.pragma('application_id')).toBe(APPLICATION_ID);
  });

  it('that does not follow the one before is refused', () => {
    expect(() => migrate(openFile(':memory:'), [runsAndLines, { ...later, version: 3 }])).toThrow(
      'migration 3 does not follow version 1',
    );
  });
});
