/** How many readings a run takes in a second from all its senders together. */

/** Ten senders at all that one may send. */
export const READINGS_A_SECOND = 2000;

interface Second {
  readonly at: number;
  count: number;
  readonly bySource: Map<string, number>;
}

/**
 * Tells whether a reading is taken, by when it came in ms of any steady clock. Beyond the limit those senders still have theirs
 * taken that have sent less than an even share of it.
 */
export function createRunRate(): (run: string, source: string, nowMs: number) => boolean {
  const seconds = new Map<string, Second>();
  return (run, source, nowMs) => {
    const at = Math.floor(nowMs / 1000);
    let second = seconds.get(run);
    if (second?.at !== at) {
      for (const [name, past] of seconds) if (past.at !== at) seconds.delete(name);
      second = { at, count: 0, bySource: new Map() };
      seconds.set(run, second);
    }
    const own = (second.bySource.get(source) ?? 0) + 1;
    second.bySource.set(source, own);
    if (second.count >= READINGS_A_SECOND && own > READINGS_A_SECOND / second.bySource.size) return false;
    second.count += 1;
    return true;
  };
}
