/**
 * Notices of what did not happen in the run itself: a press that was refused, a call that a device could not play, a pedal that
 * was tried before the start, another run that feeds. Each goes when what it says is over; the record keeps it.
 */
import type { Notice, PassingCode, RunEffect, RunEvent } from '../core/run/engine/events.ts';
import type { JournalEntry } from '../wire/kept/journalLine.ts';

export type PassingNotice = Notice<PassingCode>;

/** What ends it, of what is taken after it was told. `two-feeding` is ended by whoever sees both runs. */
const ENDS: Readonly<Record<PassingCode, (event: RunEvent, effects: readonly RunEffect[]) => boolean>> = {
  'too-soon': ({ kind }, effects) => !READINGS.has(kind) || effects.some(isBevel),
  'call-missed': ({ kind }, effects) => kind === 'ended' || effects.some(isBevel),
  'signal-seen': ({ kind }) => kind === 'started',
  'two-feeding': () => false,
};

/** What comes by itself and says nothing of what a person meant. */
const READINGS: ReadonlySet<RunEvent['kind']> = new Set(['woken', 'moved', 'tilted', 'heard-after', 'heard-by']);

const isBevel = (effect: RunEffect): boolean => effect.kind === 'say' && effect.call.deg !== undefined;

export function createPassingNotices(needs: {
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

  function tell(notice: PassingNotice, atMs: number): void {
    put(notice);
    needs.keep({ kind: 'told', atMs, ...notice });
    needs.tell(notice);
    needs.show();
  }

  return {
    /** What is shown: what was told last comes before the run's own, and that before what lasts. */
    shown(own: Notice | null): Notice | null {
      const isLasting = ({ code }: Notice): boolean => code === 'two-feeding';
      return told.findLast((each) => !isLasting(each)) ?? own ?? told.find(isLasting) ?? null;
    },
    tell,
    /** Before the start a press changes nothing, but whoever tries the pedal wants to know that it works. Not for the record. */
    tellSeen(kind: 'pressed' | 'scanned'): void {
      const message =
        kind === 'pressed'
          ? 'The pedal works: its press was seen. Presses count from the start.'
          : 'The reader works: its mark was seen. Marks count from the start.';
      put({ code: 'signal-seen', message });
      needs.show();
    },
    /** Two saws, or one forgotten run: told on both as long as it is so. */
    besideOthers(titles: readonly string[], atMs: number): void {
      const which = titles.map((title) => `“${title}”`).join(', ');
      const message = `Another run is feeding too: ${which}. Listen to the calls of one only. If it is not being sawn, stop it.`;
      const before = told.find(({ code }) => code === 'two-feeding');
      if (titles.length > 0 && before?.message !== message) tell({ code: 'two-feeding', message }, atMs);
      if (titles.length > 0 || before === undefined) return;
      told = told.filter((each) => each !== before);
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
