/**
 * Calls `tick` on a fixed grid of `periodMs`. A late tick does not push the later ones back, and ticks that were missed while
 * the process was busy are left out, never made up for in a burst. Gives the function that ends it.
 */
export function atFixedIntervals(periodMs: number, tick: () => void): () => void {
  const beganMs = performance.now();
  let timer = setTimeout(onTime, periodMs);
  function onTime(): void {
    const sinceMs = performance.now() - beganMs;
    // A timer may fire a fraction of a millisecond early: that is the tick that was due, not the one before.
    const dueMs = (Math.floor(sinceMs / periodMs + 0.25) + 1) * periodMs;
    timer = setTimeout(onTime, dueMs - sinceMs);
    // Last, so that a tick may end all of it.
    tick();
  }
  return () => clearTimeout(timer);
}
