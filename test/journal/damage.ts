/** Damage done to a journal's files, and what is told of it. Everything here works on a closed journal. */

import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readFileSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { dirname } from 'node:path';
import { isDeepStrictEqual } from 'node:util';
import { openFile } from '../../server/journal/database/openFile.ts';
import { JournalError } from '../../server/journal/journalError.ts';
import { type Journal, openJournal } from '../../server/journal/openJournal.ts';
import { createDamageFinder } from '../../server/live/record/damageFinder.ts';
import type { JournalEntry, JournalLine } from '../../server/wire/kept/journalLine.ts';
import { entryAt } from './entryAt.ts';
import { madeUpRun } from './madeUpRun.ts';

const MADE_AT_MS = 1_700_000_000_000;

export const PARTS = ['', '-wal', '-trace'] as const;

/** What every run acknowledged, as it was acknowledged. */
export type Acknowledged = ReadonlyMap<string, readonly JournalLine[]>;

/**
 * A journal of some runs as a killed server leaves it: `settled` lines of each in the database, the rest in the write-ahead log.
 * The files are copied while it is open, which is what a kill leaves.
 */
export function killedJournal(file: string, ask: { runs: number; settled: number; inLog: number }): Acknowledged {
  const live = `${file}-live.sqlite`;
  mkdirSync(dirname(file), { recursive: true });
  const journal = openJournal({ file: live });
  const names = Array.from({ length: ask.runs }, (_, index) => `run${index}`);
  for (const [index, run] of names.entries()) journal.keepRun(madeUpRun(run, MADE_AT_MS + index));
  const write = (lines: number): void => {
    for (let line = 0; line < lines; line += 1)
      for (const run of names) {
        const seq = [...journal.lines(run)].length;
        journal.append(run, seq, groupAt(seq));
      }
  };
  write(ask.settled);
  journal.settle();
  write(ask.inLog);
  const acknowledged = new Map(names.map((run) => [run, [...journal.lines(run)]]));
  copyJournal(live, file);
  journal.close();
  for (const part of PARTS) rmSync(`${live}${part}`, { force: true });
  return acknowledged;
}

/** One or two lines at a time, as a live run does it; long ones now and then. */
const groupAt = (seq: number): JournalEntry[] =>
  seq % 3 === 0 ? [pressAt(seq + 1), entryAt(seq + 2)] : [entryAt(seq + 1)];
const pressAt = (seq: number): JournalEntry => ({ kind: 'scanned', atMs: seq, mark: 11, offsetMm: 0, id: `m${seq}` });

export function copyJournal(from: string, to: string): void {
  for (const part of PARTS) {
    rmSync(`${to}${part}`, { force: true });
    if (existsSync(`${from}${part}`)) copyFileSync(`${from}${part}`, `${to}${part}`);
  }
}

export function flipBit(path: string, bit: number): void {
  const bytes = readFileSync(path);
  const at = Math.floor(bit / 8) % bytes.length;
  bytes[at] = (bytes[at] ?? 0) ^ (1 << (bit % 8));
  writeFileSync(path, bytes);
}

/** Another digit at the n-th place at which one stands in the file. False where there is none. */
export function changeDigit(path: string, nth: number): boolean {
  const bytes = readFileSync(path);
  const places = [...bytes.keys()].filter((at) => isDigit(bytes[at] ?? 0));
  const at = places[nth % Math.max(places.length, 1)];
  if (at === undefined) return false;
  bytes[at] = 0x30 + (((bytes[at] ?? 0) - 0x30 + 1 + (nth % 9)) % 10);
  writeFileSync(path, bytes);
  return true;
}
const isDigit = (byte: number): boolean => byte >= 0x30 && byte <= 0x39;

export function cutShort(path: string, share: number): void {
  truncateSync(path, Math.floor(statSync(path).size * share));
}

/** Changes the tables behind the program's back, past the triggers that hold lines. */
export function meddle(file: string, sql: string): void {
  const db = openFile(file);
  db.exec('DROP TRIGGER lines_are_not_changed; DROP TRIGGER lines_are_not_taken_out; PRAGMA foreign_keys = OFF');
  db.exec(sql);
  db.close();
}

/** `told`: the start is refused in words, or a run says what is wrong; `harmless`: everything is as it was acknowledged. */
export type Verdict = 'told' | 'harmless' | 'silent';

/** What comes of opening a journal in this state, for all of its runs together. */
export function judge(file: string, acknowledged: Acknowledged): Verdict {
  let journal: Journal;
  try {
    journal = openJournal({ file, waitMs: 0 });
  } catch (error) {
    if (error instanceof JournalError) return 'told';
    throw error;
  }
  try {
    const verdicts = [...acknowledged].map(([run, lines]) => judgeRun(journal, run, lines));
    if (verdicts.includes('silent')) return 'silent';
    return verdicts.includes('told') ? 'told' : 'harmless';
  } finally {
    journal.close();
  }
}

export function judgeRun(journal: Journal, run: string, acknowledged: readonly JournalLine[]): Verdict {
  if (!journal.names(1000).includes(run)) return 'silent';
  const finder = createDamageFinder();
  const lines = [...journal.lines(run)];
  for (const line of lines) finder.line(line);
  const { damage } = finder.found(journal.seal(run).endIsKnown);
  const stored = runOrDamage(journal, run);
  if (damage !== null || stored === 'damaged') return 'told';
  const asMade = isDeepStrictEqual(stored, madeUpRun(run, MADE_AT_MS + Number(run.slice('run'.length))));
  const isSame = isDeepStrictEqual(lines.slice(0, acknowledged.length), acknowledged);
  return asMade && isSame ? 'harmless' : 'silent';
}

function runOrDamage(journal: Journal, run: string) {
  try {
    return journal.run(run) ?? 'damaged';
  } catch (error) {
    if (error instanceof JournalError && error.code === 'damaged') return 'damaged';
    throw error;
  }
}
