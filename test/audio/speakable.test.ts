import fc from 'fast-check';
import { expect, test } from 'vitest';
import { isSpeakable } from '../../audio/voice/settings.ts';
import { LANGUAGES } from '../../server/core/words/languages.ts';
import { PHRASE_NAMES } from '../../server/core/words/phraseNames.ts';
import { faultsOfWords } from '../../server/core/words/yardWords.ts';

test('what the yard may say, the voice of its language will speak', () => {
  const text = fc.stringMatching(/^[a-zäöüß]{3,9}([ ,'-]{1,2}[a-zA-ZÄÖÜ]{1,9}){0,4}$/);
  let spoken = 0;
  fc.assert(
    fc.property(fc.constantFrom(...PHRASE_NAMES), text, fc.constantFrom(...LANGUAGES), (phrase, words, language) => {
      if (faultsOfWords({ [phrase]: words }, language).length > 0) return;
      spoken += 1;
      expect(isSpeakable(words, language)).toBe(true);
    }),
    { numRuns: 500 },
  );
  expect(spoken).toBeGreaterThan(20);
});

test('each language speaks its own letters and no markup', () => {
  expect(isSpeakable('fünf', 'de')).toBe(true);
  expect(isSpeakable('fünf')).toBe(false);
  for (const odd of ['<voice>', '[[fIv]]', '|fünf', 'fünf; sechs', 'fünf\nsechs', '-fünf', 'año', 'ф'])
    for (const language of LANGUAGES) expect(isSpeakable(odd, language), odd).toBe(false);
});
