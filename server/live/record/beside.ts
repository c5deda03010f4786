/**
 * What a run shows beside what its engine knows: the fold of its record, as the engine's state is, so that a page that comes later
 * sees the same, and so does one after the server was started again.
 */
import type { Notice, PassingCode, RunEvent } from '../../core/run/engine/events.ts';
import { isEvent, type JournalEntry } from '../../wire/kept/journalLine.ts';

/** Told of a press that was refused, or of a call that a device could not play; over with what the run then takes or calls. */
export type KeptNotice = Notice<Extract<PassingCode, 'too-soon' | 'call-missed'>>;

/** The bevel that was called last. */
interface BevelCall {
  readonly id: string;
  /** The listeners that could not play it. */
  readonly unplayedBy: readonly string[];
  /** How often it has been said again because nobody had heard it. */
  readonly again: number;
}

export interface Beside {
  /** What the readout showed with the blade square, if somebody has said it. */
  readonly squareSeenDeg: number | null;
  /** Those that are not over, the one told last at the end. */
  readonly notices: readonly KeptNotice[];
  readonly bevelCall: BevelCall | null;
  /** The next bevel is the last one said again. */
  readonly isSayingAgain: boolean;
}

export const NOTHING_BESIDE: Beside = { squareSeenDeg: null, notices: [], bevelCall: null, isSayingAgain: false };

/** What comes by itself and says nothing of what a person meant. */
const READINGS: ReadonlySet<RunEvent['kind']> = new Set(['woken', 'moved', 'tilted', 'heard-after', 'heard-by']);

/** What a line makes of it; the very same where it says nothing of this. */
export function besideAfter(before: Beside, entry: JournalEntry): Beside {
  switch (entry.kind) {
    case 'squared':
      return { ...before, squareSeenDeg: entry.seenDeg };
    case 'told':
      return isKept(entry) ? { ...before, notices: withNotice(before.notices, entry) } : before;
    case 'called':
      return entry.deg === undefined ? before : bevelCalled(before, entry.id);
    case 'unplayed':
      return before.bevelCall?.id === entry.call ? unplayedBy(before, before.bevelCall, entry.listener) : before;
    case 'unheard':
      return { ...before, isSayingAgain: true };
    case 'ended':
      return withoutNotices(before, () => true);
    default:
      return isEvent(entry) ? eventAfter(before, entry) : before;
  }
}

function eventAfter(before: Beside, { kind }: RunEvent): Beside {
  // It could not be said again in time: what is called from here on is another bevel.
  const next = before.isSayingAgain ? { ...before, isSayingAgain: false } : before;
  return READINGS.has(kind) ? next : withoutNotices(next, ({ code }) => code === 'too-soon');
}

const isKept = (notice: Notice): notice is KeptNotice => notice.code === 'too-soon' || notice.code === 'call-missed';

const withNotice = (notices: readonly KeptNotice[], { code, message, mark }: KeptNotice): readonly KeptNotice[] => [
  ...notices.filter((each) => each.code !== code),
  { code, message, ...(mark === undefined ? {} : { mark }) },
];

function bevelCalled(before: Beside, id: string): Beside {
  const again = before.isSayingAgain ? (before.bevelCall?.again ?? 0) + 1 : 0;
  return { ...before, notices: [], bevelCall: { id, unplayedBy: [], again }, isSayingAgain: false };
}

function unplayedBy(before: Beside, call: BevelCall, listener: string): Beside {
  if (call.unplayedBy.includes(listener)) return before;
  return { ...before, bevelCall: { ...call, unplayedBy: [...call.unplayedBy, listener] } };
}

function withoutNotices(before: Beside, isOver: (notice: KeptNotice) => boolean): Beside {
  const notices = before.notices.filter((notice) => !isOver(notice));
  return notices.length === before.notices.length ? before : { ...before, notices };
}
