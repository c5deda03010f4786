import { grammarOf, LANGUAGES } from './languages.ts';
import type { Language } from './voiceChoice.ts';

/**
 * Seconds that the embedded voice takes for a text, reckoned word by word, for planning before anything is rendered.
 * Within 15 % over everything that a run says (held against the voice itself in test/audio/spokenLength.test.ts);
 * a word that was never measured is reckoned by its letters.
 */
export function spokenLengthS(text: string, language: Language): number {
  const clauses = text
    .split(',')
    .map((clause) => wordsIn(clause, language))
    .filter(({ length }) => length > 0);
  const pausesMs = Math.max(0, clauses.length - 1) * grammarOf(language).measured.pauseMs;
  return clauses.reduce((sum, words) => sum + clauseMs(words, language), pausesMs) / 1000;
}

/** The longest that it takes in any language, where it is not known which the words are of. */
export const longestSpokenS = (text: string): number =>
  Math.max(...LANGUAGES.map((language) => spokenLengthS(text, language)));

/** The words as the voice takes them, in small letters: "twenty-two," is two, "einundzwanzig" three. */
export function wordsIn(text: string, language: Language): readonly string[] {
  const written = text.toLowerCase().match(/[\p{L}0-9']+/gu) ?? [];
  return written.flatMap((word) => grammarOf(language).parts(word));
}

/** A clause's last word is drawn out, and its only word more so. */
function clauseMs(words: readonly string[], language: Language): number {
  const { wordsMs, letterMs } = grammarOf(language).measured;
  return words.reduce((sum, word, i) => {
    const byLetters = word.length * letterMs;
    const measured = Object.hasOwn(wordsMs, word) ? wordsMs[word] : undefined;
    const [within, last, alone] = measured ?? [byLetters, byLetters, byLetters];
    if (words.length === 1) return sum + alone;
    return sum + (i === words.length - 1 ? last : within);
  }, 0);
}
