import fc from 'fast-check';
import { expect, test } from 'vitest';
import { callText } from '../../../server/core/words/callText.ts';
import { WORDS_MS } from '../../../server/core/words/measuredWords.ts';
import { phrases } from '../../../server/core/words/phrases.ts';
import { spokenLengthS, wordsIn } from '../../../server/core/words/spokenLength.ts';

test('nothing takes no time, and a comma with nothing after it is no pause', () => {
  expect(spokenLengthS('')).toBe(0);
  expect(spokenLengthS(' , ')).toBe(0);
  expect(spokenLengthS('stop feed,')).toBe(spokenLengthS('stop feed'));
});

test('every word that a run may say was measured', () => {
  const forms = fc.constantFrom('natural' as const, 'digits' as const, 'two digits' as const);
  const deg = fc.integer({ min: -1999, max: 1999 }).map((n) => n / 20);
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 2000 }), deg, forms, (mark, deg, numbers) => {
      const text = callText({ mark, deg }, { language: 'en', form: 'mark and angle', numbers });
      for (const word of wordsIn(text)) expect(WORDS_MS).toHaveProperty(word);
    }),
  );
  for (const text of Object.values(phrases)) for (const word of wordsIn(text)) expect(WORDS_MS).toHaveProperty(word);
});

test('a word never measured takes time by its letters, whatever it is called', () => {
  expect(spokenLengthS('constructor')).toBeGreaterThan(spokenLengthS('prow'));
  expect(spokenLengthS('prow')).toBeGreaterThan(0.1);
});
