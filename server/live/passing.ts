/**
 * Notices of what did not happen in the run itself: a press that was refused, a call that a device could not play, a pedal that
 * was tried before the start, another run that feeds. Each goes when what it says is over; the record keeps it.
 */
import type { Notice, RunEffect, RunEvent } from '../core/run/events.ts';
import type { JournalEntry } from '../wire/journalLine.ts';

type PassingCode = 'too-soon' | 'call-missed' | 'signal-seen' | 'two-feeding';
export type PassingNotice = Notice & { readonly code: PassingCode };

/** What ends it, of what is taken after it was told. `two-feeding` is ended by whoever sees both runs. */
const ENDS: Readonly<Record<PassingCode, (event: RunEvent, effects: readonly RunEffect[]) => boolean>> = {
  'too-soon': ({ kind }, effects) => !READINGS.has(kind) || effects.some(isBevel),
  'call-missed': ({ kind }, effects) => kind === 'ended' || effects.some(isBevel),
  'signal-seen': ({ kind }) => kind === 'started',
  'two-feeding': () => false,
};

/** What comes by itself and says nothing of what a person meant. */
const READINGS: ReadonlySet<RunEvent['kind']> = new Set(['woken', 'moved', 'tilted', 'heard-after']);

const isBevel = (effect: RunEffect): boolean => effect.kind === 'say' && effect.call.deg !== undefined;

export function createPassing(needs: {
  readonly keep: (entry: JournalEntry) => void;
  /** At this moment, to everyone. */
  readonly tell: (notice: Notice) => void;
  /** What every page shows has changed. */
  readonly show: () => void;
}) {
  let told: readonly PassingNotice[] = [];

  function put(notice: PassingNotice): void {
    told = [...told.filter(({ code }) => code !== notice.code), notice];
  }

  return {
    /** The one told last; null where there is none. */
    last: (): Notice | null => told.at(-1) ?? null,
    tell(notice: PassingNotice, atMs: number): void {
      put(notice);
      needs.keep({ kind: 'told', atMs, ...notice });
      needs.tell(notice);
      needs.show();
    },
    /** Before the start a press changes nothing, but whoever tries the pedal wants to know that it works. Not for the record. */
    tellSeen(kind: 'pressed' | 'scanned'): void {
      const message =
        kind === 'pressed'
          ? 'The pedal works: its press was seen. Presses count from the start.'
          : 'The reader works: its mark was seen. Marks count from the start.';
      put({ code: 'signal-seen', message });
      needs.show();
    },
    end(code: PassingCode): void {
      if (!told.some((each) => each.code === code)) return;
      told = told.filter((each) => each.code !== code);
      needs.show();
    },
    /** The run has taken an event. True where a notice is over by it. */
    after(event: RunEvent, effects: readonly RunEffect[]): boolean {
      if (told.length === 0) return false;
      const before = told.length;
      told = told.filter(({ code }) => !ENDS[code](event, effects));
      return told.length < before;
    },
  };
}
