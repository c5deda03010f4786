import type { Phrases } from './phraseNames.ts';
import type { Spelling } from './soundsLike.ts';
import type { NumberForm } from './voiceChoice.ts';

/** All that a language must bring; the compiler holds every language to it. */
export interface Grammar {
  /** Its own name for itself. */
  readonly name: string;
  /** A figure from 0 to 99.99 in each form, from its whole degrees and its hundredths (0 to 99). */
  readonly figure: Readonly<Record<NumberForm, (whole: number, hundredths: number) => string>>;
  /** Before a figure on the other side of square. */
  readonly minus: string;
  /** What names a mark before its bevel: "mark seven". */
  readonly mark: (mark: number) => string;
  readonly phrases: Phrases;
  /** The bevel growing and shrinking, away from square and toward it. */
  readonly turns: { readonly more: string; readonly less: string };
  /** The letters that its words are made of, small and great, for a character class. */
  readonly letters: string;
  /** Words of numbers and calls, alone: nothing else may sound like them. */
  readonly figureWords: readonly string[];
  /** Words that no phrase may use, by the reason. */
  readonly banned: readonly { readonly why: string; readonly words: readonly string[] }[];
  /** How its spelling sounds, roughly. */
  readonly spelling: Spelling;
  /** How long the embedded voice takes. */
  readonly measured: MeasuredWords;
  /** Takes a written word apart where the voice's length is reckoned by parts: "einundzwanzigeinhalb". */
  readonly parts: (word: string) => readonly string[];
}

/** Measured from the embedded voice by `test/bench/measureWords.mjs`. Milliseconds. */
export interface MeasuredWords {
  /** For each comma. */
  readonly pauseMs: number;
  /** For each letter of a word that is not in the table. */
  readonly letterMs: number;
  /** [within a clause, as its last word, as its only word] */
  readonly wordsMs: Readonly<Record<string, readonly [number, number, number]>>;
}
