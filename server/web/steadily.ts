/**
 * Calls `tick` on a fixed grid of `periodMs`. A late tick does not push the later ones back, and ticks that were missed while
 * the process was busy are left out, never made up for in a burst. Gives the function that ends it.
 */
export function steadily(periodMs: number, tick: () => void): () => void {
  let dueMs = performance.now() + periodMs;
  let timer = setTimeout(onTime, periodMs);
  function onTime(): void {
    const nowMs = performance.now();
    dueMs += periodMs * Math.max(1, Math.ceil((nowMs - dueMs) / periodMs));
    timer = setTimeout(onTime, Math.max(0, dueMs - nowMs));
    tick();
  }
  return () => clearTimeout(timer);
}
