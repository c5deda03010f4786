import { Piscina } from 'piscina';
import type { Prepared } from './prepare.ts';

/** Prepares recordings in a thread of its own: a run in progress never waits for it. */
export interface Studio {
  /** Rejects where the thread died or took too long. */
  prepare(text: string, bytes: Uint8Array): Promise<Prepared>;
  /** What a program has spoken, as a clip; empty where it is no sound. Rejects likewise. */
  finish(bytes: Uint8Array): Promise<Int16Array>;
  close(): Promise<void>;
}

const DOOR = new URL('./door.mjs', import.meta.url);
const PATIENCE_MS = 30_000;
const IDLE_MS = 20_000;

/** One thread, started at the first recording and let go when idle. */
export function openStudio(): Studio {
  const pool = new Piscina({
    minThreads: 0,
    maxThreads: 1,
    concurrentTasksPerWorker: 1,
    idleTimeout: IDLE_MS,
    // Not the flags of whoever started us: the door brings what the thread needs.
    execArgv: [],
  });
  // A thread that dies between two recordings is replaced at the next.
  pool.on('error', () => {});
  const ask = (name: 'prepare' | 'finish', what: object): Promise<unknown> =>
    pool.run(what, { filename: DOOR.href, name, signal: AbortSignal.timeout(PATIENCE_MS) });
  return {
    prepare: async (text, bytes) => (await ask('prepare', { text, bytes })) as Prepared,
    finish: async (bytes) => (await ask('finish', { bytes })) as Int16Array,
    close: () => pool.destroy(),
  };
}
