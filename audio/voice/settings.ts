/** What the embedded voice is, in the words that `voices` prints and that clips are known by. */
export interface VoiceFound {
  readonly name: string;
  readonly language: 'en';
  readonly engine: string;
  readonly sampleRateHz: number;
}

/** Of the embedded voices the one that was measured in noise. */
export const VOICE_NAME = 'en-us';
/** Between 120 and 220 the rate made no difference to what was understood in noise. */
export const WORDS_PER_MIN = 175;
export const ENGINE = 'espeak-ng-emscripten 0.3.5';

/** Longer than any phrase; what is longer is not one. */
export const LONGEST_TEXT = 160;
/** Letters, digits, spaces and simple punctuation: nothing that a voice could take for markup or phonemes. */
const SPEAKABLE = /^[A-Za-z0-9][A-Za-z0-9 ,.'-]*$/;

export const isSpeakable = (text: string): boolean => text.length <= LONGEST_TEXT && SPEAKABLE.test(text);
