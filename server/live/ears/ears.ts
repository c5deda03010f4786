import type { Heard } from '../../core/run/engine/events.ts';
import { heardByAny, hearsBevels, isConfirmed } from '../../wire/message/heardByAny.ts';
import type { Listener } from '../../wire/message/messages.ts';

/** So long after its last sign of life an ear is lost; with the beat at which that is noticed it is told within a second and a half. */
const LONGEST_SILENCE_MS = 1300;
/** An ear whose connection broke, and for which a call waits of which nothing tells by when it must be heard, is given so long to be back. */
const LONGEST_WAIT_MS = 500;

/** A call that nobody has heard yet: whether it would still be in time; `not known` where nothing tells. */
export type CallWaiting = 'in time' | 'too late' | 'not known';

interface EarsChanged {
  readonly listener: Listener;
  readonly isOnlyDelay: boolean;
  /** Less is heard than before: the only one who heard the bevels hears them no more, or the only one who heard anything. */
  readonly isLastEarLost: boolean;
}

interface Ear {
  readonly listener: Listener;
  /** The last sign of life of its page; null where it gives none (the server's own loudspeaker). */
  readonly goodAtMs: number | null;
  /** Since when its connection is gone; null while it is there. */
  readonly awayAtMs: number | null;
}

/** Who listens to a run, by the connection of their page. A listener who is away for a moment keeps its place. */
export function createEars() {
  const pages = new Map<string, Ear>();
  /** Those whose connection stands and that give no sign of life; the first sign brings them back. */
  const silent = new Map<string, Listener>();
  const listeners = (): readonly Listener[] => [...pages.values()].map(({ listener }) => listener);
  const heard = (): Heard => heardByAny(listeners());

  const isSamePlace = (one: Listener, other: Listener): boolean => one.id === other.id && one.role === other.role;

  /** A page that comes back under another connection takes up the place that was kept, unless it is still fetching its words. */
  function placeKeptFor(listener: Listener): Ear | undefined {
    if (listener.hearing === 'loading') return undefined;
    const kept = [...pages].find(([, ear]) => ear.awayAtMs !== null && isSamePlace(ear.listener, listener));
    if (kept !== undefined) pages.delete(kept[0]);
    return kept?.[1];
  }

  function isOverdue({ goodAtMs, awayAtMs }: Ear, nowMs: number, waiting: CallWaiting | null): boolean {
    const lastMs = goodAtMs ?? awayAtMs;
    if (lastMs !== null && nowMs - lastMs > LONGEST_SILENCE_MS) return true;
    if (awayAtMs === null || waiting === null || waiting === 'in time') return false;
    return waiting === 'too late' || nowMs - awayAtMs > LONGEST_WAIT_MS;
  }

  return {
    /** Each place once, though its page is away and another has taken it up. */
    list: (): readonly Listener[] =>
      [...pages.values()]
        .filter(
          (ear) =>
            ear.awayAtMs === null ||
            ![...pages.values()].some((other) => other.awayAtMs === null && isSamePlace(other.listener, ear.listener)),
        )
        .map(({ listener }) => listener),
    at: (page: string): Listener | undefined => pages.get(page)?.listener,
    heard,
    unconfirmed: (): readonly Listener[] => listeners().filter((listener) => !isConfirmed(listener)),
    /** Those who hear the bevels now: their connection stands. */
    hearingBevels: (): readonly string[] =>
      [...pages].filter(([, ear]) => ear.awayAtMs === null && hearsBevels(ear.listener)).map(([page]) => page),
    /** How long after the server the slowest of those hears the bevels who must: at the handwheel, or, if nobody does there, anywhere. */
    slowestMs(): number {
      const ears = listeners().filter(hearsBevels);
      const atWheel = ears.filter(({ role }) => role === 'wheel');
      return (atWheel.length > 0 ? atWheel : ears).reduce((most, { delayMs = 0 }) => Math.max(most, delayMs), 0);
    },
    /** Null where nothing has changed. */
    changed(page: string, listener: Listener | null): EarsChanged | null {
      silent.delete(page);
      const heardBefore = heard();
      const kept = listener === null ? undefined : placeKeptFor(listener);
      const before = pages.get(page) ?? kept;
      if (listener === null) pages.delete(page);
      else pages.set(page, { goodAtMs: pages.get(page)?.goodAtMs ?? null, listener, awayAtMs: null });
      const known = before?.listener;
      const isSame = listener === null ? known === undefined : known !== undefined && isAlike(known, listener);
      if (isSame && known?.delayMs === listener?.delayMs) return null;
      const subject = listener ?? known;
      if (subject === undefined) return null;
      return {
        listener: subject,
        isOnlyDelay: listener !== null && isSame,
        isLastEarLost: isLess(heard(), heardBefore),
      };
    },
    /** Its connection broke. True where its place is kept for a while: only one that is sure to hear has a place to keep. */
    leftFor(page: string, nowMs: number): boolean {
      const ear = pages.get(page);
      if (ear === undefined || !isConfirmed(ear.listener)) return false;
      pages.set(page, { ...ear, awayAtMs: nowMs });
      return true;
    },
    /** A sign of life. Gives a listener whose silence had been taken for its end. */
    alive(page: string, nowMs: number): Listener | null {
      const ear = pages.get(page);
      if (ear !== undefined) pages.set(page, { ...ear, goodAtMs: nowMs });
      return silent.get(page) ?? null;
    },
    /** Those that can be waited for no longer. */
    overdue: (nowMs: number, waiting: CallWaiting | null): readonly string[] =>
      [...pages].filter(([, ear]) => isOverdue(ear, nowMs, waiting)).map(([page]) => page),
    /** To be called before an overdue page is dropped: one whose connection stands may yet give a sign of life. */
    fellSilent(page: string): (() => void) | null {
      const ear = pages.get(page);
      return ear === undefined || ear.awayAtMs !== null ? null : () => void silent.set(page, ear.listener);
    },
    /** It was the server that stood still, and nobody was away for so long. */
    forgive(forMs: number): void {
      for (const [page, ear] of pages)
        pages.set(page, {
          ...ear,
          goodAtMs: ear.goodAtMs === null ? null : ear.goodAtMs + forMs,
          awayAtMs: ear.awayAtMs === null ? null : ear.awayAtMs + forMs,
        });
    },
  };
}

const isAlike = (one: Listener, other: Listener): boolean =>
  one.hearing === other.hearing &&
  one.label === other.label &&
  (one.isWithoutBevels ?? false) === (other.isWithoutBevels ?? false);

const isLess = (now: Heard, before: Heard): boolean =>
  now !== before && (before === 'bevels' || (before === 'stops' && now === 'nobody'));
