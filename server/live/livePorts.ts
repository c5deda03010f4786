/** What a live run needs of the rooms that it does not import; `app.ts` hands them in. */
import type { Problem } from '../core/errors.ts';
import type { Language } from '../core/words/voiceChoice.ts';
import type { KeptHand } from '../wire/kept/crew.ts';
import type { JournalEntry, JournalLine } from '../wire/kept/journalLine.ts';
import type { Seal, StoredRun } from '../wire/kept/storedRun.ts';
import type { OwnTime } from './ownTime.ts';

export interface JournalPort {
  /** Keeps a new run and its first line (`made`, seq 1) in one transaction; durable on return. */
  keepRun(run: StoredRun): void;
  /** Appends lines in one transaction; durable on return. Gives the `seq` of the last. `afterSeq` is what the writer believes to be the last: a conflict throws. */
  append(run: string, afterSeq: number, entries: readonly JournalEntry[]): number;
  /** The names of the newest runs, newest first. */
  names(atMost: number): readonly string[];
  run(run: string): StoredRun | undefined;
  /** Every line that was ever acknowledged, in its place; `unreadable` where it is missing or not as it was kept. */
  lines(run: string): IterableIterator<JournalLine>;
  /** What is known of a run even where it cannot be read. */
  seal(run: string): Seal;
  /** Puts what was written into its lasting place; takes tens of milliseconds, so never while wood moves. */
  settle(): void;
}

export interface VoiceAsked {
  /** Who speaks; the embedded voice where it is left out. */
  readonly voice?: string;
  readonly language: Language;
}
/** The voice that says a run's words, made into clips beforehand. */
export interface RunVoicesPort {
  /** `embedded`, `system` or `recorded`; undefined for a name that nobody has. */
  kindOf(voice: string | undefined): Promise<string | undefined>;
  render(
    texts: readonly string[],
    asked: VoiceAsked,
  ): Promise<
    | {
        readonly ok: true;
        readonly voice?: string;
        readonly clips: readonly { readonly key: string; readonly durationMs: number }[];
      }
    | { readonly ok: false; readonly problems: readonly Problem[] }
  >;
}

/** What is kept of the crew. */
export interface HandsPort {
  /** Keeps what one run told of a person; a run that was kept before now is this person's. Durable on return. */
  keepHand(hand: KeptHand): void;
  /** In the order in which it was kept. */
  hands(): readonly KeptHand[];
  /** Takes out everything that is kept of a person, the name in the plans of their runs too. False where nothing was kept. */
  forgetHand(name: string): boolean;
}

export interface LiveRunNeeds {
  readonly journal: JournalPort;
  /** Unix time in ms; may have fractions; never before what `haveSeen` was told. */
  readonly nowMs: () => number;
  /** A kept run knows a time: a machine whose clock was set back since must not fall behind it. */
  readonly haveSeen: (atMs: number) => void;
  readonly report: (error: unknown) => void;
  readonly inTurn?: (run: string, work: () => void) => void;
  /** The run's state has become another one. */
  readonly onPhase?: () => void;
  readonly ownTime: Pick<OwnTime, 'look' | 'watch'>;
}
