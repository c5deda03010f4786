/**
 * The server's own time. It beats; a beat that does not come tells that the server stood still (stopped, starved, asleep), and that
 * whatever waited meanwhile is old. Told before anything that waited is taken: whoever takes something looks first.
 */
import { secondsText } from '../core/figures/durations.ts';
import { SILENCE_MS } from '../core/run/on/sourceSilent.ts';

const BEAT_MS = 50;

export type OwnTime = ReturnType<typeof createOwnTime>;
export interface Watcher {
  /** `detail`: what happened, in a sentence. */
  readonly stoodStill: (detail: string, forMs: number) => void;
  readonly beat?: () => void;
}

export function createOwnTime(needs: {
  /** A steady clock in ms, which may stand still while the machine sleeps. */
  readonly steadyMs: () => number;
  /** Unix time in ms, which goes on then, and may be set. */
  readonly wallMs: () => number;
}) {
  const { steadyMs, wallMs } = needs;
  const watchers = new Set<Watcher>();
  let last = { steady: steadyMs(), wall: wallMs() };

  function look(): void {
    const now = { steady: steadyMs(), wall: wallMs() };
    const steadyGapMs = now.steady - last.steady;
    const gapMs = Math.max(steadyGapMs, now.wall - last.wall);
    last = now;
    // Up to a beat of it was not standing still.
    if (gapMs - BEAT_MS <= SILENCE_MS) return;
    const seconds = secondsText(gapMs / 1000);
    const detail =
      steadyGapMs - BEAT_MS > SILENCE_MS
        ? `The server stood still for ${seconds}.`
        : `The server’s machine slept, or its clock was set forward, by ${seconds}.`;
    for (const { stoodStill } of watchers) stoodStill(detail, gapMs);
  }

  const timer = setInterval(() => {
    look();
    for (const { beat } of watchers) beat?.();
  }, BEAT_MS);
  timer.unref();

  return {
    /** To be called before anything that may have waited is taken. */
    look,
    watch(watcher: Watcher): () => void {
      watchers.add(watcher);
      return () => void watchers.delete(watcher);
    },
    close: () => clearInterval(timer),
  };
}
