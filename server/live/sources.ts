import type { FeedFrame } from '../wire/feedFrame.ts';

/** A source that comes back within this time was never missed; with the engine's own half second it stays inside the promise. */
const GRACE_MS = 300;

/** Watches the connections that follow the stock: one that falls away while the wood moves is a lost signal. */
export function createSources(needs: { readonly isNeeded: () => boolean; readonly onLost: (detail: string) => void }) {
  let following: { readonly source: string; readonly kind: FeedFrame['kind'] } | null = null;
  let timer: NodeJS.Timeout | undefined;
  return {
    /** Tilt is not what the calls hang on. */
    heard(source: string, kind: FeedFrame['kind']): void {
      if (kind === 'tilt') return;
      clearTimeout(timer);
      following = { source, kind };
    },
    closed(source: string): void {
      if (following?.source !== source) return;
      const { kind } = following;
      following = null;
      clearTimeout(timer);
      timer = setTimeout(() => {
        if (needs.isNeeded()) needs.onLost(`The connection of the ${NAMES[kind]} is gone.`);
      }, GRACE_MS);
    },
    close(): void {
      clearTimeout(timer);
    },
  };
}

const NAMES = { pedal: 'pedal', mark: 'mark reader', travel: 'measuring wheel', tilt: 'tilt sensor' } as const;
