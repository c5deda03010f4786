/** A clock that stands until it is told to go on; what is due on the way is called at its time, in order. */
export function handTimer() {
  let nowMs = 0;
  const due = new Set<{ readonly atMs: number; readonly tick: () => void }>();
  const next = () => [...due].reduce((a, b) => (b.atMs < a.atMs ? b : a));
  return {
    now: () => nowMs,
    after(waitMs: number, tick: () => void): () => void {
      const entry = { atMs: nowMs + waitMs, tick };
      due.add(entry);
      return () => due.delete(entry);
    },
    /** How many ticks are waited for. */
    waiting: () => due.size,
    goOn(byMs: number): void {
      const untilMs = nowMs + byMs;
      while (due.size > 0 && next().atMs <= untilMs) {
        const entry = next();
        due.delete(entry);
        nowMs = entry.atMs;
        entry.tick();
      }
      nowMs = untilMs;
    },
  };
}
