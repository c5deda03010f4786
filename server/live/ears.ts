import type { Listener } from '../wire/messages.ts';

const isConfirmed = ({ hearing }: Listener): boolean => hearing === 'confirmed';
const hearsBevels = (listener: Listener): boolean => isConfirmed(listener) && listener.isWithoutBevels !== true;

export interface EarsChanged {
  readonly listener: Listener;
  readonly isOnlyDelay: boolean;
  /** The only one who heard the bevels hears them no more; where nobody did, the only one who heard anything. */
  readonly isLastEarLost: boolean;
}

/** Who listens to a run, by the connection of their page. */
export function createEars() {
  const pages = new Map<string, Listener>();
  const count = (is: (listener: Listener) => boolean): number => [...pages.values()].filter(is).length;
  return {
    list: (): readonly Listener[] => [...pages.values()],
    at: (page: string): Listener | undefined => pages.get(page),
    unconfirmed: (): readonly Listener[] => [...pages.values()].filter((listener) => !isConfirmed(listener)),
    /** How long after the server the slowest of those hears the bevels who must: at the handwheel, or, if nobody does there, anywhere. */
    slowestMs(): number {
      const heard = [...pages.values()].filter(hearsBevels);
      const atWheel = heard.filter(({ role }) => role === 'wheel');
      return (atWheel.length > 0 ? atWheel : heard).reduce((most, { delayMs = 0 }) => Math.max(most, delayMs), 0);
    },
    /** Null where nothing has changed. */
    changed(page: string, listener: Listener | null): EarsChanged | null {
      const before = pages.get(page);
      const isSame = listener === null ? before === undefined : before !== undefined && isAlike(before, listener);
      if (isSame && before?.delayMs === listener?.delayMs) return null;
      const [bevelsBefore, anyBefore] = [count(hearsBevels), count(isConfirmed)];
      if (listener === null) pages.delete(page);
      else pages.set(page, listener);
      const subject = listener ?? before;
      if (subject === undefined) return null;
      const isLastEarLost = bevelsBefore > 0 ? count(hearsBevels) === 0 : anyBefore > 0 && count(isConfirmed) === 0;
      return { listener: subject, isOnlyDelay: listener !== null && isSame, isLastEarLost };
    },
  };
}

const isAlike = (one: Listener, other: Listener): boolean =>
  one.hearing === other.hearing &&
  one.label === other.label &&
  (one.isWithoutBevels ?? false) === (other.isWithoutBevels ?? false);
