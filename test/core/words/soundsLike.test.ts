import fc from 'fast-check';
import { expect, test } from 'vitest';
import { grammarOf, LANGUAGES } from '../../../server/core/words/languages.ts';
import { CANDIDATES } from '../../../server/core/words/opposites.ts';
import { apart, soundsOf, TOO_NEAR } from '../../../server/core/words/soundsLike.ts';

const between = (language: 'en' | 'de', one: string, other: string): number =>
  apart(soundsOf(one, grammarOf(language).spelling), soundsOf(other, grammarOf(language).spelling));

// Measured with an independent recogniser in noise beforehand, except the homophones.
test.each([
  ['en', 'thirteen', 'thirty'],
  ['en', 'fourteen', 'forty'],
  ['en', 'sixteen', 'fifteen'],
  ['en', 'for', 'four'],
  ['en', 'to', 'two'],
  ['de', 'dreizehn', 'dreißig'],
  ['de', 'fünfzehn', 'fünfzig'],
  ['de', 'sechzehn', 'siebzehn'],
] as const)('%s: %s and %s are taken for each other', (language, one, other) => {
  expect(between(language, one, other)).toBeLessThan(TOO_NEAR);
});

test.each([
  ['en', 'more', 'less'],
  ['en', 'stop feed', 'feed slower'],
  ['en', 'stop', 'more'],
  ['de', 'zwo', 'drei'],
  ['de', 'mehr', 'weniger'],
  ['de', 'stopp Vorschub', 'Vorschub langsamer'],
] as const)('%s: %s and %s are not', (language, one, other) => {
  expect(between(language, one, other)).toBeGreaterThan(TOO_NEAR);
});

test('zwo is further from drei than zwei is: so it is said where digits are read out', () => {
  expect(between('de', 'zwo', 'drei')).toBeGreaterThan(between('de', 'zwei', 'drei'));
});

test.each(LANGUAGES)(
  'of the candidates for a growing and a shrinking bevel, those that are spoken are well apart: %s',
  (language) => {
    const { turns } = grammarOf(language);
    expect(CANDIDATES[language].turns[0]).toEqual(turns);
    expect(between(language, turns.more, turns.less)).toBeGreaterThan(2 * TOO_NEAR);
  },
);

test('a measure: nothing from itself, the same both ways, never below nothing', () => {
  const letters = fc.stringMatching(/^[a-zäöüß' -]{0,16}$/);
  for (const language of LANGUAGES)
    fc.assert(
      fc.property(letters, letters, (one, other) => {
        expect(between(language, one, one)).toBe(0);
        const far = between(language, one, other);
        expect(far).toBeGreaterThanOrEqual(0);
        expect(far).toBeCloseTo(between(language, other, one), 9);
      }),
    );
});
