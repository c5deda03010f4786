import type { Listener } from '../wire/messages.ts';

/** Who listens to a run, by the connection of their page. */
export function createEars() {
  const pages = new Map<string, Listener>();
  const confirmed = (): number => [...pages.values()].filter(({ hearing }) => hearing === 'confirmed').length;
  return {
    list: (): readonly Listener[] => [...pages.values()],
    at: (page: string): Listener | undefined => pages.get(page),
    unconfirmed: (): readonly Listener[] => [...pages.values()].filter(({ hearing }) => hearing !== 'confirmed'),
    /** Null where nothing has changed; `isLastEarLost` when the only one who heard the calls hears them no more. */
    changed(page: string, listener: Listener | null): { listener: Listener; isLastEarLost: boolean } | null {
      const before = pages.get(page);
      if (
        listener === null
          ? before === undefined
          : before?.hearing === listener.hearing && before.label === listener.label
      )
        return null;
      const heardBefore = confirmed();
      if (listener === null) pages.delete(page);
      else pages.set(page, listener);
      const subject = listener ?? before;
      return subject === undefined ? null : { listener: subject, isLastEarLost: heardBefore > 0 && confirmed() === 0 };
    },
  };
}
