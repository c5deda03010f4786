/** Long bodies are read in a thread of their own: a run in progress does not wait for them, nor they for a plan. */
import { Piscina } from 'piscina';
import type { BodyName, BodyOf } from '../wire/request/bodies.ts';

const DOOR = new URL('./body-door.mjs', import.meta.url);

interface Reader {
  /** Takes the bytes away from the caller. Rejects only if the thread itself breaks. */
  read<N extends BodyName>(name: N, bytes: Uint8Array): Promise<BodyOf<N>>;
  close(): Promise<void>;
}

/** The thread starts with the first long body, and stays. */
export function createReader(): Reader {
  const threads = new Piscina<unknown, unknown>({
    minThreads: 0,
    maxThreads: 1,
    idleTimeout: Number.POSITIVE_INFINITY,
    // Whatever the program itself was started with (a debugger, a loader) is not for the thread.
    execArgv: [],
  });
  // A thread that dies with a body rejects that body; the next one gets a new thread.
  threads.on('error', () => {});
  return {
    read: <N extends BodyName>(name: N, given: Uint8Array) => {
      // What shares its memory with other buffers cannot be given away.
      const bytes = given.byteLength === given.buffer.byteLength ? given : new Uint8Array(given);
      const transferList = [bytes.buffer as ArrayBuffer];
      return threads.run({ name, bytes }, { filename: DOOR.href, name: 'readLongBody', transferList }) as Promise<
        BodyOf<N>
      >;
    },
    close: () => threads.destroy(),
  };
}
