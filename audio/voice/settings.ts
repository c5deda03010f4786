import type { Language } from '../../server/core/words/voiceChoice.ts';

/** What the embedded voice is, in the words that `voices` prints and that clips are known by. */
export interface VoiceFound {
  readonly name: string;
  readonly language: Language;
  readonly engine: string;
  readonly sampleRateHz: number;
}

/** The embedded voice of each language; of the English ones the one that was measured in noise. */
export const VOICE_NAMES: Readonly<Record<Language, string>> = { en: 'en-us', de: 'de' };
export const VOICE_NAME = VOICE_NAMES.en;
/** Between 120 and 230 the rate makes no difference to what is understood in noise that `npm run bench:voice` could show. */
export const WORDS_PER_MIN = 200;
export const ENGINE = 'espeak-ng-emscripten 0.3.5';

/** Longer than any phrase; what is longer is not one. */
const LONGEST_TEXT = 160;
/** Letters of the language, digits, spaces and simple punctuation: nothing that a voice could take for markup or phonemes. */
const SPEAKABLE: Readonly<Record<Language, RegExp>> = {
  en: /^[A-Za-z0-9][A-Za-z0-9 ,.'-]*$/,
  de: /^[A-Za-zÄÖÜäöüß0-9][A-Za-zÄÖÜäöüß0-9 ,.'-]*$/,
};

export const isSpeakable = (text: string, language: Language = 'en'): boolean =>
  text.length <= LONGEST_TEXT && SPEAKABLE[language].test(text);
