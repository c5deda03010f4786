/** How fast a plan may be fed, interval by interval, and what limits it. Feeds in m/min, times in seconds. */

import type { VoiceChoice } from '../words/voiceChoice.ts';
import type { Routine } from './routine.ts';

export type PaceLimit = 'words' | 'reaction' | 'wheel' | 'twist' | 'saw';

/** Limits and duration are of the routine `mark by mark`, which needs no more than a pedal. */
export interface Pace {
  readonly limitMPerMin: number;
  /** What limits the slowest interval: the greatest share of its time, the saw, or `twist` (see `intervals`). */
  readonly limitedBy: PaceLimit;
  /** The whole rip at the crew's own feed, or at the limit where that is slower. */
  readonly durationS: number;
  /**
   * In the order of the run: the time that the call for `toMark` needs, and the feed that leaves it, unless the saw takes less.
   * `twist` instead of the greatest share where the bevel itself changes faster than the blade follows: no feed cures that.
   */
  readonly intervals: readonly {
    readonly fromMark: number;
    readonly toMark: number;
    readonly lengthMm: number;
    readonly wordsS: number;
    readonly reactionS: number;
    readonly wheelS: number;
    readonly limitMPerMin: number;
    readonly limitedBy: PaceLimit;
  }[];
  /** The pace of every routine, `mark by mark` among them. Plans made before there were several have none. */
  readonly routines?: Readonly<Record<Routine, RoutinePace>>;
  /** Where the crew's own feed is faster than the limit: what helps. Empty where it is not. */
  readonly suggestions?: readonly PaceSuggestion[];
}

export interface RoutinePace {
  /** The slowest interval's; null where nothing limits the routine on this frame. */
  readonly limitMPerMin: number | null;
  readonly limitedBy: PaceLimit | null;
  readonly durationS: number;
  /** The intervals of `Pace.intervals`, in the same order. */
  readonly intervals: readonly { readonly limitMPerMin: number | null; readonly limitedBy: PaceLimit | null }[];
}

/** What helps where the crew feeds too fast for `mark by mark`; each figure is rounded down from what a new plan then finds. */
export type PaceSuggestion =
  /** Feed no faster than this from the one mark to the other; at the crew's own feed elsewhere, the rip then takes so long. */
  | {
      readonly kind: 'slow';
      readonly fromMark: number;
      readonly toMark: number;
      readonly toMPerMin: number;
      readonly durationS: number;
    }
  /** Marks evenly so far apart between two marks that stay: the girths of all marks then, and what that stretch then allows. */
  | {
      readonly kind: 'marks';
      readonly fromMark: number;
      readonly toMark: number;
      readonly spacingMm: number;
      readonly girthsMm: readonly number[];
      /** How many marks that is more than now; below zero: fewer. */
      readonly moreMarks: number;
      readonly allowsMPerMin: number;
    }
  /** Fewer words in a call, and the feed that `mark by mark` then allows over the whole stock. */
  | {
      readonly kind: 'words';
      readonly form: VoiceChoice['form'];
      readonly numbers: VoiceChoice['numbers'];
      readonly allowsMPerMin: number;
    }
  /** Another routine, which allows the crew's own feed. */
  | { readonly kind: 'routine'; readonly routine: Routine; readonly allowsMPerMin: number | null };
