import { LETTER_MS, PAUSE_MS, WORDS_MS } from './measuredWords.ts';

/**
 * Seconds that the embedded voice takes for a text, reckoned word by word, for planning before anything is rendered.
 * Within 15 % over everything that a run says (8 % when it was measured; held against the voice itself in test/audio/spokenLength.test.ts);
 * a word that was never measured is reckoned by its letters.
 */
export function spokenLengthS(text: string): number {
  const clauses = text
    .split(',')
    .map(wordsIn)
    .filter(({ length }) => length > 0);
  const pausesMs = Math.max(0, clauses.length - 1) * PAUSE_MS;
  return clauses.reduce((sum, words) => sum + clauseMs(words), pausesMs) / 1000;
}

/** The words as the voice takes them: "twenty-two," is two. */
export const wordsIn = (text: string): readonly string[] => text.toLowerCase().match(/[a-z0-9']+/g) ?? [];

/** A clause's last word is drawn out, and its only word more so. */
function clauseMs(words: readonly string[]): number {
  return words.reduce((sum, word, i) => {
    const byLetters = word.length * LETTER_MS;
    const [within, last, alone] = MEASURED.get(word) ?? [byLetters, byLetters, byLetters];
    if (words.length === 1) return sum + alone;
    return sum + (i === words.length - 1 ? last : within);
  }, 0);
}

const MEASURED = new Map(Object.entries(WORDS_MS));
