/** What a crew wants to hear: the language, the form of a call, the way of its numbers, and words of its own. */
import type { PhraseName } from './phraseNames.ts';

export interface VoiceChoice {
  readonly language: Language;
  readonly form: 'angle' | 'mark and angle';
  readonly numbers: NumberForm;
  /** The yard's own words in place of the language's; what is here was found to be mistaken for nothing else. */
  readonly words?: YardWords;
}

export type Language = 'en' | 'de';

export type YardWords = Readonly<Partial<Record<PhraseName, string>>>;

export type NumberForm = 'natural' | 'digits' | 'two digits';
