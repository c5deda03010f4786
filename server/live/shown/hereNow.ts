/**
 * Notices of what is so at this moment around a run and in no record of it: a pedal that was tried before the start, another run that
 * feeds.
 */
import type { Notice, PassingCode } from '../../core/run/engine/events.ts';

export type HereNotice = Notice<Exclude<PassingCode, 'too-soon' | 'call-missed'>>;

export function createHereNow() {
  let seen: HereNotice | null = null;
  let others: HereNotice | null = null;

  return {
    seen: (): HereNotice | null => seen,
    others: (): HereNotice | null => others,
    /** Before the start a press changes nothing, but whoever tries the pedal wants to know that it works. */
    trySignal(kind: 'pressed' | 'scanned'): void {
      const message =
        kind === 'pressed'
          ? 'The pedal works: its press was seen. Presses count from the start.'
          : 'The reader works: its mark was seen. Marks count from the start.';
      seen = { code: 'signal-seen', message };
    },
    /** Two saws, or one forgotten run. What is new of it to be told; null where nothing is; undefined where nothing has changed. */
    besideOthers(titles: readonly string[]): HereNotice | null | undefined {
      const which = titles.map((title) => `“${title}”`).join(', ');
      const message = `Another run is feeding too: ${which}. Listen to the calls of one only. If it is not being sawn, stop it.`;
      const before = others;
      others = titles.length === 0 ? null : { code: 'two-feeding', message };
      return others?.message === before?.message ? undefined : others;
    },
  };
}
