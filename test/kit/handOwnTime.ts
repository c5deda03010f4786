import type { OwnTime, Watcher } from '../../server/live/ownTime.ts';

/** The server's own time in the hand of a test: it stands still when told to, and never because the machine is busy. */
export function handOwnTime() {
  const watchers = new Set<Watcher>();
  const ownTime: Pick<OwnTime, 'look' | 'watch'> = {
    look: () => {},
    watch(watcher) {
      watchers.add(watcher);
      return () => void watchers.delete(watcher);
    },
  };
  return {
    ownTime,
    beat(): void {
      for (const { beat } of watchers) beat?.();
    },
    standStill(forMs: number): void {
      for (const { stoodStill } of watchers) stoodStill(`The server stood still for ${forMs / 1000} s.`, forMs);
    },
  };
}
