/**
 * A second, independent trace of every run: which runs were made, and the last line that was acknowledged in each. The database
 * cannot tell by itself that its end is missing: a flipped bit in its log makes SQLite drop all commits behind it without a word.
 *
 * One small file of records of a fixed size, each written over in its place, so that it needs no room on a full disk. It is written
 * after the database has been, and without waiting for the disk: it survives anything but a power cut, and then it is behind
 * the database, never ahead of it. Two slots a run are written in turn, each with its own checksum.
 */
import { createHash } from 'node:crypto';
import { closeSync, constants, fstatSync, fsyncSync, ftruncateSync, openSync, readSync, writeSync } from 'node:fs';
import { z } from 'zod';
import { SUM_BYTES, type Sum } from './chain.ts';

export interface LastLine {
  readonly seq: number;
  readonly atMs: number;
  readonly sum: Sum;
}
export interface TracedRun {
  readonly run: string;
  /** Null where that part of the record is damaged. */
  readonly title: string | null;
  readonly madeAtMs: number | null;
  readonly last: LastLine | null;
  /** False where neither slot can be read, although one was written: then the run's end is not known. */
  readonly endIsKnown: boolean;
}
export interface Trace {
  /** In the order in which they were made. */
  runs(): readonly TracedRun[];
  of(run: string): TracedRun | undefined;
  /** A run is about to be made, or to be written for the first time since there are traces. On the disk on return; throws Node's error. */
  begin(run: string, title: string, madeAtMs: number): void;
  /** The run that was begun last was not made after all. */
  undo(run: string): void;
  /** The line is in the database. Never throws: a trace that falls behind misleads nobody. */
  note(run: string, last: LastLine): void;
  /** Waits for the disk. */
  settle(): void;
  close(): void;
}

const RECORD_BYTES = 1024;
const HEAD_BYTES = 512;
const SLOT_BYTES = 256;
const CHECK_CHARS = 8;

const head = z.strictObject({ run: z.string(), title: z.string(), madeAtMs: z.number() });
const slot = z.strictObject({ run: z.string(), seq: z.int().min(1), atMs: z.number(), sum: z.string() });
type Slot = z.infer<typeof slot>;

interface Kept extends TracedRun {
  readonly index: number;
  /** The slot that is written next. */
  readonly turn: 0 | 1;
}

/** Opens the trace in `file`, or makes it. What is damaged in it is passed over. Throws Node's error where it cannot be opened. */
export function openTrace(file: string): Trace {
  return traceOn(openSync(file, constants.O_RDWR | constants.O_CREAT, 0o666));
}

function traceOn(fd: number): Trace {
  const runs = new Map<string, Kept>();
  let size = readAll(fd, runs);
  let isOpen = true;

  function put(text: string, at: number, bytes: number): void {
    const line = Buffer.from(sealed(text, bytes));
    for (let done = 0; done < bytes; ) done += writeSync(fd, line, done, bytes - done, at + done);
  }

  return {
    runs: () => [...runs.values()].toSorted((a, b) => a.index - b.index),
    of: (run) => runs.get(run),
    begin(run, title, madeAtMs) {
      const index = Math.ceil(size / RECORD_BYTES);
      try {
        put(headText(run, title, madeAtMs), index * RECORD_BYTES, HEAD_BYTES);
        for (const turn of [0, 1]) put('', slotAt(index, turn), SLOT_BYTES);
        fsyncSync(fd);
      } catch (error) {
        ftruncateSync(fd, size);
        throw error;
      }
      size = (index + 1) * RECORD_BYTES;
      runs.set(run, { run, title, madeAtMs, last: null, endIsKnown: true, index, turn: 0 });
    },
    undo(run) {
      const begun = runs.get(run);
      if (begun === undefined) return;
      runs.delete(run);
      size = begun.index * RECORD_BYTES;
      ftruncateSync(fd, size);
    },
    note(run, last) {
      const kept = runs.get(run);
      if (kept === undefined || !isOpen) return;
      const { seq, atMs, sum } = last;
      try {
        const text = JSON.stringify({ run, seq, atMs, sum: Buffer.from(sum).toString('base64') });
        put(text, slotAt(kept.index, kept.turn), SLOT_BYTES);
      } catch {
        // The line itself is safe, and that is what was promised.
      }
      runs.set(run, { ...kept, last, endIsKnown: true, turn: kept.turn === 0 ? 1 : 0 });
    },
    settle: () => fsyncSync(fd),
    close() {
      if (isOpen) closeSync(fd);
      isOpen = false;
    },
  };
}

const slotAt = (index: number, turn: number): number => index * RECORD_BYTES + HEAD_BYTES + turn * SLOT_BYTES;

/** A title too long for its place is cut short: it is only read where the run itself cannot be. */
function headText(run: string, title: string, madeAtMs: number): string {
  const letters = [...title];
  for (;;) {
    const text = JSON.stringify({ run, title: letters.join(''), madeAtMs });
    if (Buffer.byteLength(text) + CHECK_CHARS + 2 <= HEAD_BYTES) return text;
    if (letters.length === 0) throw new RangeError(`the name of a run is too long: ${run.slice(0, 64)}`);
    letters.length = Math.max(0, letters.length - 16);
  }
}

/** The text, filled up with spaces, its checksum and a line's end; an empty text is an empty place. */
function sealed(text: string, bytes: number): string {
  const room = bytes - CHECK_CHARS - 2;
  const wide = Buffer.byteLength(text);
  if (wide > room) throw new RangeError(`${wide} bytes do not fit into ${room}`);
  return `${text}${' '.repeat(room - wide)} ${text === '' ? ' '.repeat(CHECK_CHARS) : checkOf(text)}\n`;
}
const checkOf = (text: string): string => createHash('sha256').update(text).digest('hex').slice(0, CHECK_CHARS);

/** What stands at this place: undefined where it is damaged, null where nothing was written yet. */
function unsealed<T>(bytes: Buffer, wide: number, shape: z.ZodType<T>): T | null | undefined {
  if (bytes.length < wide) return undefined;
  const text = bytes.toString('utf8').trimEnd();
  if (text === '') return null;
  const said = text.slice(0, -CHECK_CHARS).trimEnd();
  if (checkOf(said) !== text.slice(-CHECK_CHARS)) return undefined;
  return shape.safeParse(JSON.parse(said)).data;
}

/** Gives the size of the file. */
function readAll(fd: number, runs: Map<string, Kept>): number {
  const { size } = fstatSync(fd);
  const bytes = Buffer.alloc(size);
  for (let done = 0; done < size; ) {
    const got = readSync(fd, bytes, done, size - done, done);
    if (got === 0) break;
    done += got;
  }
  for (let index = 0; index * RECORD_BYTES < size; index += 1) {
    const record = readRecord(bytes, index);
    if (record !== null) runs.set(record.run, record);
  }
  return size;
}

function readRecord(bytes: Buffer, index: number): Kept | null {
  const at = index * RECORD_BYTES;
  const named = unsealed(bytes.subarray(at, at + HEAD_BYTES), HEAD_BYTES, head);
  const slots = [0, 1].map((turn) =>
    unsealed(bytes.subarray(slotAt(index, turn), slotAt(index, turn) + SLOT_BYTES), SLOT_BYTES, slot),
  );
  const [first, second] = slots;
  const newest: Slot | undefined = [first, second].filter((each) => each != null).toSorted((a, b) => b.seq - a.seq)[0];
  const run = named?.run ?? newest?.run;
  if (run === undefined) return null;
  const last = newest === undefined ? null : { ...newest, sum: new Uint8Array(Buffer.from(newest.sum, 'base64')) };
  return {
    run,
    title: named?.title ?? null,
    madeAtMs: named?.madeAtMs ?? null,
    last: last === null || last.sum.length !== SUM_BYTES ? null : { seq: last.seq, atMs: last.atMs, sum: last.sum },
    endIsKnown: newest !== undefined || (first === null && second === null),
    index,
    turn: newest !== undefined && newest === first ? 1 : 0,
  };
}
