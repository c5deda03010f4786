import { setImmediate } from 'node:timers/promises';

/** Work for so long at a time: a reading that comes meanwhile does not wait longer. */
const AT_ONCE_MS = 3;

/** Goes through the steps of some work, and lets the run in progress have its turn between them. Gives what the work gives. */
export async function unhurried<T>(steps: Generator<void, T>): Promise<T> {
  for (;;) {
    const untilMs = performance.now() + AT_ONCE_MS;
    while (performance.now() < untilMs) {
      const { done, value } = steps.next();
      if (done) return value;
    }
    await setImmediate();
  }
}
