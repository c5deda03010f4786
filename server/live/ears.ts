import type { Listener } from '../wire/messages.ts';

/** Who listens to a run, by the connection of their page. */
export function createEars() {
  const pages = new Map<string, Listener>();
  const confirmed = (): number => [...pages.values()].filter(({ hearing }) => hearing === 'confirmed').length;
  return {
    list: (): readonly Listener[] => [...pages.values()],
    at: (page: string): Listener | undefined => pages.get(page),
    unconfirmed: (): readonly Listener[] => [...pages.values()].filter(({ hearing }) => hearing !== 'confirmed'),
    /** How long after the server the slowest of those hears who must: at the handwheel, or, if nobody listens there, anywhere. */
    slowestMs(): number {
      const heard = [...pages.values()].filter(({ hearing }) => hearing === 'confirmed');
      const atWheel = heard.filter(({ role }) => role === 'wheel');
      return (atWheel.length > 0 ? atWheel : heard).reduce((most, { delayMs = 0 }) => Math.max(most, delayMs), 0);
    },
    /** Null where nothing has changed; `isLastEarLost` when the only one who heard the calls hears them no more. */
    changed(
      page: string,
      listener: Listener | null,
    ): { listener: Listener; isOnlyDelay: boolean; isLastEarLost: boolean } | null {
      const before = pages.get(page);
      if (
        listener === null
          ? before === undefined
          : before?.hearing === listener.hearing &&
            before.label === listener.label &&
            before.delayMs === listener.delayMs
      )
        return null;
      const heardBefore = confirmed();
      if (listener === null) pages.delete(page);
      else pages.set(page, listener);
      const subject = listener ?? before;
      const isOnlyDelay = listener !== null && before?.hearing === listener.hearing && before.label === listener.label;
      return subject === undefined
        ? null
        : { listener: subject, isOnlyDelay, isLastEarLost: heardBefore > 0 && confirmed() === 0 };
    },
  };
}
