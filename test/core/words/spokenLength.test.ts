import fc from 'fast-check';
import { expect, test } from 'vitest';
import { callText } from '../../../server/core/words/callText.ts';
import { grammarOf, LANGUAGES } from '../../../server/core/words/languages.ts';
import { spokenLengthS, wordsIn } from '../../../server/core/words/spokenLength.ts';

test('nothing takes no time, and a comma with nothing after it is no pause', () => {
  expect(spokenLengthS('', 'en')).toBe(0);
  expect(spokenLengthS(' , ', 'en')).toBe(0);
  expect(spokenLengthS('stop feed,', 'en')).toBe(spokenLengthS('stop feed', 'en'));
});

test.each(LANGUAGES)('every word that a run may say was measured: %s', (language) => {
  const { phrases, measured, turns } = grammarOf(language);
  const isMeasured = (text: string): void => {
    for (const word of wordsIn(text, language)) expect(measured.wordsMs).toHaveProperty(word);
  };
  const forms = fc.constantFrom('natural' as const, 'digits' as const, 'two digits' as const);
  const degs = fc.integer({ min: -1999, max: 1999 }).map((n) => n / 20);
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 2000 }), degs, forms, (mark, deg, numbers) =>
      isMeasured(callText({ mark, deg }, { language, form: 'mark and angle', numbers })),
    ),
  );
  for (const text of [...Object.values(phrases), turns.more, turns.less]) isMeasured(text);
});

test('a written German number is taken apart as it is said', () => {
  expect(wordsIn('einundzwanzigeinhalb, zwölf', 'de')).toEqual(['ein', 'und', 'zwanzig', 'einhalb', 'zwölf']);
  expect(wordsIn('eins dreizehndreiviertel Neigung', 'de')).toEqual(['eins', 'dreizehn', 'dreiviertel', 'neigung']);
});

test('a word never measured takes time by its letters, whatever it is called', () => {
  expect(spokenLengthS('constructor', 'en')).toBeGreaterThan(spokenLengthS('prow', 'en'));
  expect(spokenLengthS('prow', 'en')).toBeGreaterThan(0.1);
});
