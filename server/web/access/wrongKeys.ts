/** Counts wrong keys by the address that they came from. */

export const WRONG_KEYS_A_MINUTE = 20;
const WINDOW_MS = 60_000;
/** So that a flood from made-up addresses cannot fill the memory. */
const ADDRESSES_KEPT = 1000;

interface WrongKeys {
  /** Counts one more; true if this address has had its share for now. */
  tooMany(from: string, nowMs: number): boolean;
}

export function createWrongKeys(): WrongKeys {
  const counts = new Map<string, { sinceMs: number; count: number }>();
  return {
    tooMany(from, nowMs) {
      const before = counts.get(from);
      const fresh = before === undefined || nowMs - before.sinceMs >= WINDOW_MS;
      const entry = fresh ? { sinceMs: nowMs, count: 0 } : before;
      entry.count += 1;
      counts.delete(from);
      counts.set(from, entry);
      if (counts.size > ADDRESSES_KEPT) {
        const oldest = counts.keys().next();
        if (!oldest.done) counts.delete(oldest.value);
      }
      return entry.count > WRONG_KEYS_A_MINUTE;
    },
  };
}
