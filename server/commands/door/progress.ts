/** How far a long command is, on the terminal's error stream. Says nothing of what takes less than a second. */
import type { Terminal } from './terminal.ts';

const FIRST_AFTER_MS = 1000;
/** A line that is overwritten may change often; lines that stay, as in a log, may not. */
const BAR_EVERY_MS = 100;
const LINE_EVERY_MS = 2000;
const BAR_CELLS = 24;
const CLEAR_LINE = '\r\u001b[K';

interface Progress {
  /** So many more are done. */
  done(count: number): void;
  /** Takes the bar away; lines stay. */
  end(): void;
}

interface Count {
  readonly atMs: number;
  readonly count: number;
}

/** `what`: what is counted, as in "120 of 900 runs". `now`: milliseconds since any moment. */
export function progressOn(
  err: Terminal['err'],
  what: string,
  total: number,
  now: () => number = () => performance.now(),
): Progress {
  const isBar = err.isTTY === true;
  const startedMs = now();
  let toldMs = startedMs + FIRST_AFTER_MS - (isBar ? BAR_EVERY_MS : LINE_EVERY_MS);
  let count = 0;
  let first: Count | null = null;
  let isShown = false;
  return {
    done(more) {
      count += more;
      const atMs = now();
      first ??= { atMs, count };
      if (atMs - toldMs < (isBar ? BAR_EVERY_MS : LINE_EVERY_MS)) return;
      toldMs = atMs;
      const text = `${count} of ${total} ${what}${toGo(first, { atMs, count }, total)}`;
      err.write(isBar ? `${CLEAR_LINE}${bar(count / total)} ${text}` : `${text}\n`);
      isShown = true;
    },
    end() {
      if (isBar && isShown) err.write(CLEAR_LINE);
      isShown = false;
    },
  };
}

/** By how fast it went since the first was done: before that is the starting of threads, which is done once. */
function toGo(first: Count, now: Count, total: number): string {
  if (now.count === first.count) return '';
  const msEach = (now.atMs - first.atMs) / (now.count - first.count);
  return `, about ${Math.ceil((msEach * (total - now.count)) / 1000)} s to go`;
}

function bar(share: number): string {
  const full = Math.round(BAR_CELLS * Math.min(1, share));
  return `[${'='.repeat(full)}${' '.repeat(BAR_CELLS - full)}]`;
}
