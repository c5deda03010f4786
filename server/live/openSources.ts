import type { FeedFrame } from '../wire/message/feedFrame.ts';

/** A source that comes back within this time was never missed; with the engine's own half second it stays inside the promise. */
const GRACE_MS = 300;

/** Watches the connections that follow the stock: the last of its kind to fall away while the wood moves is a lost signal. */
export function createSources(needs: { readonly isNeeded: () => boolean; readonly onLost: (detail: string) => void }) {
  /** What each open connection has told of so far. */
  const open = new Map<string, Set<FeedFrame['kind']>>();
  const timers = new Map<FeedFrame['kind'], NodeJS.Timeout>();
  const isHeard = (kind: FeedFrame['kind']): boolean => [...open.values()].some((kinds) => kinds.has(kind));
  return {
    /** Tilt is not what the calls hang on. */
    heard(source: string, kind: FeedFrame['kind']): void {
      if (kind === 'tilt') return;
      clearTimeout(timers.get(kind));
      timers.delete(kind);
      const kinds = open.get(source) ?? new Set();
      open.set(source, kinds.add(kind));
    },
    /** A page has come, perhaps the one that went a moment ago: its foot is on the pedal again before it has pressed it. */
    cameBack(source: string): void {
      for (const [kind, timer] of timers) {
        clearTimeout(timer);
        open.set(source, (open.get(source) ?? new Set()).add(kind));
      }
      timers.clear();
    },
    closed(source: string): void {
      const gone = open.get(source);
      open.delete(source);
      for (const kind of gone ?? []) {
        if (isHeard(kind)) continue;
        clearTimeout(timers.get(kind));
        const tell = (): void => {
          timers.delete(kind);
          if (needs.isNeeded() && !isHeard(kind)) needs.onLost(`The connection of the ${NAMES[kind]} is gone.`);
        };
        timers.set(kind, setTimeout(tell, GRACE_MS));
      }
    },
    close(): void {
      for (const timer of timers.values()) clearTimeout(timer);
    },
  };
}

const NAMES = { pedal: 'pedal', mark: 'mark reader', travel: 'measuring wheel', tilt: 'tilt sensor' } as const;
