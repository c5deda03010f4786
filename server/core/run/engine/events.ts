/**
 * What happens in a run (events, past tense, journaled) and what the engine asks for in return (effects).
 * Every event carries the Unix time at which it happened; the engine has no clock of its own.
 */

/** A pedal's gestures. `next`, a short press: the next mark is at the blade now. */
export type Gesture = 'next' | 'again' | 'back' | 'stop';

/** What can fall silent: a source that follows the stock, the last listener who hears the calls, or this program itself. */
export type Lifeline = 'travel' | 'sound' | 'server';

/** The most that any listener with confirmed sound hears: every bevel; stops and warnings only; nothing. */
export type Heard = 'bevels' | 'stops' | 'nobody';

export type RunEvent = { readonly atMs: number } & (
  | {
      readonly kind: 'started';
      readonly withoutSound: boolean;
      /** Whether somebody had said that the blade was squared at zero; left out in a rehearsal, and in runs of before. */
      readonly square?: 'confirmed' | 'not confirmed';
    }
  | ({ readonly kind: 'pressed'; readonly gesture: Gesture } & OfAReading)
  | ({ readonly kind: 'scanned'; readonly mark: number; readonly offsetMm: number } & OfAReading)
  /** `mm` is counted since any zero. */
  | ({ readonly kind: 'moved'; readonly mm: number } & OfAReading)
  | ({ readonly kind: 'tilted'; readonly deg: number } & OfAReading)
  /** The slowest headset on which the tilt hand's calls are heard now sounds so long after the server. */
  | { readonly kind: 'heard-after'; readonly delayMs: number }
  /** What the listeners hear now; before the first such event, nothing. */
  | { readonly kind: 'heard-by'; readonly hears: Heard }
  /** This call was heard by nobody, and somebody hears again. */
  | { readonly kind: 'unheard'; readonly call: string }
  | { readonly kind: 'stopped'; readonly by: 'page' | 'restart' }
  | {
      readonly kind: 'resumed';
      /** True where a person has said that it goes on unheard. */
      readonly withoutSound?: boolean;
    }
  | { readonly kind: 'ended' }
  /** The record was found damaged from this line on, to its end where `toLine` is null: where the wood stands is not known. */
  | { readonly kind: 'damaged'; readonly fromLine: number; readonly toLine: number | null }
  /** A person says which mark is at the blade; 0 before the first. */
  | { readonly kind: 'placed'; readonly mark: number }
  | { readonly kind: 'signal-lost'; readonly lifeline: Lifeline; readonly detail: string }
  /** Time has passed: the state's own `wakeAtMs` has come. */
  | { readonly kind: 'woken' }
);

interface OfAReading {
  readonly id?: string;
  /** How old the reading was when it came in; its source knows that better than its arrival tells. */
  readonly ageMs?: number;
}

/** When what a reading tells was so. */
export const trueAtMs = ({ atMs, ageMs = 0 }: { readonly atMs: number; readonly ageMs?: number }): number =>
  atMs - ageMs;

export type Audience = 'tilt hand' | 'sawyer' | 'everyone';

/** Something said aloud. `deg` stands only where a bevel is named, `mark` where it is that mark's. */
export interface Call {
  readonly id: string;
  readonly to: Audience;
  /** The words as spoken; the clip of a run is found by them. */
  readonly text: string;
  readonly mark?: number;
  readonly deg?: number;
  readonly startsAtMs: number;
  readonly durationMs: number;
  /** The `id` of the reading that set it off. */
  readonly cause?: string;
}

/** What the run itself tells. */
export type RunNoticeCode =
  | 'mark-skipped'
  | 'mark-doubled'
  | 'mark-behind'
  | 'mark-doubtful'
  | 'mark-guessed'
  | 'pulled-back'
  | 'too-fast'
  | 'signal-lost'
  | 'moved-while-stopped'
  | 'restarted'
  | 'damaged'
  | 'count-restarted'
  | 'not-kept';
/** What is told beside it: of a press that was refused, a device, a trial before the start, another run. */
export type PassingCode = 'too-soon' | 'call-missed' | 'signal-seen' | 'two-feeding';
export type NoticeCode = RunNoticeCode | PassingCode;

/** Something that must not go unnoticed: shown on every page of the run until it is mended, and kept in its record. */
export interface Notice<Code extends NoticeCode = NoticeCode> {
  readonly code: Code;
  /** What is wrong and what to do, in words. */
  readonly message: string;
  readonly mark?: number;
}

export type RefusalCode =
  | 'not-feeding'
  | 'not-stopped'
  | 'too-soon'
  | 'nobody-hears'
  | 'no-such-mark'
  | 'place-unknown'
  | 'place-known'
  | 'nothing-to-take-back'
  | 'already-started'
  | 'finished';

export type RunEffect =
  | { readonly kind: 'say'; readonly call: Call }
  /** Taken back before or while it is spoken. */
  | { readonly kind: 'cut-off'; readonly id: string }
  | { readonly kind: 'tell'; readonly notice: Notice<RunNoticeCode> }
  /** A mark whose call was never spoken, and why. */
  | { readonly kind: 'missed'; readonly mark: number; readonly reason: string }
  /** The event was not taken: the state is as before and nothing is journaled. Always alone. */
  | { readonly kind: 'refuse'; readonly code: RefusalCode; readonly message: string; readonly mark?: number };
