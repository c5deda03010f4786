import fc from 'fast-check';
import { expect, test } from 'vitest';
import { grammarOf, LANGUAGES } from '../../../server/core/words/languages.ts';
import { PHRASE_NAMES } from '../../../server/core/words/phraseNames.ts';
import { phrasesFor } from '../../../server/core/words/phrases.ts';
import type { YardWords } from '../../../server/core/words/voiceChoice.ts';
import { faultsOfWords, LONGEST_PHRASE } from '../../../server/core/words/yardWords.ts';
import { cases } from '../../kit/cases.ts';

const faultOf = (words: YardWords, language: 'en' | 'de' = 'en') => faultsOfWords(words, language)[0];

test.each([
  ['en', { stopFeed: 'whoa, hold tilt' }],
  ['en', { easeFeed: 'ease off', runDone: 'last one done, hold tilt'.replace('one ', '') }],
  ['en', { soundTest: 'one two three, hear me' }],
  ['en', { pulledBack: 'Stop, don-key engine off, hold tilt' }],
  ['de', { stopFeed: 'stopp Holz, Neigung bleibt' }],
  ['de', { easeFeed: 'gemächlich' }],
] as const)('%s: %o is taken', (language, words) => {
  expect(faultsOfWords(words, language)).toEqual([]);
});

test.each([
  ['a shop word', { stopFeed: 'set' }, /another word than "set": it is also said of glue/],
  ['a word for bevels', { runDone: 'closing now' }, /"closing"/],
  ['an order that turns round', { stopFeed: 'do not feed' }, /"not": an order turns round/],
  ['a figure', { easeFeed: 'seven down' }, /"seven", which belongs to the figures/],
  ['what sounds like a figure', { easeFeed: 'fourteem' }, /sounds like "fourteen"/],
  ['a homophone at the edge', { easeFeed: 'brake for' }, /"for" at the edge of "brake for"/],
  ['the call of a mark', { runDone: 'last mark' }, /"mark"/],
  ['the word for a growing bevel', { easeFeed: 'no-more feed' }, /"no"/],
  ['the same', { easeFeed: 'more slowly' }, /"more", which tells how the bevel goes/],
  ['the words of another phrase', { easeFeed: 'sound test, one two three' }, /"one"|soundTest/],
  ['nearly so', { stopFeed: 'feet slower' }, /easeFeed, "feed slower"/],
  ['the beginning of a stop', { easeFeed: 'stop feeling, slower' }, /stopFeed begins with "stop feed"/],
  ['two that are alike', { easeFeed: 'gently now', runDone: 'gentle now' }, /other words than those of runDone/],
] as const)('%s is refused: %o', (_, words, wanted) => {
  expect(faultOf(words)?.kind).toBe('mistakable');
  expect(faultOf(words)?.wanted).toMatch(wanted);
});

test.each([
  ['digits', 'stop 1'],
  ['a line', 'stop\nfeed'],
  ['markup', '<break>'],
  ['phonemes', '[[stop]]'],
  ['a quote', 'stop"feed'],
  ['a shell', 'stop; feed'],
  ['a dollar', 'stop $(feed)'],
  ['an option', '-stop'],
  ['a backslash', 'stop\\feed'],
  ['two spaces', 'stop  feed'],
  ['a comma alone', 'stop,'],
  ['letters of another language', 'stöpp'],
  ['what looks like a letter', 'stор'],
  ['a word without end', 'o'.repeat(25)],
  ['two letters', 'go, wo'],
  ['a sentence without end', `${'stop feed '.repeat(12)}stop`],
])('its shape is refused: %s', (_, text) => {
  expect(faultOf({ stopFeed: text })?.kind).toBe('shape');
});

test('what is said must be over in time', () => {
  const fault = faultOf({ stopFeed: 'stop everything that is moving along the table at present, hold the tilt' });
  expect(fault).toMatchObject({ phrase: 'stopFeed', kind: 'length' });
});

test.each(LANGUAGES)("a language's own phrases pass its own check: %s", (language) => {
  const faults = faultsOfWords(grammarOf(language).phrases, language);
  // It comes last, after the blade has come to stand.
  const known = language === 'en' ? [/"never"/] : [];
  expect(faults.map(({ wanted }) => wanted)).toEqual(known.map((one) => expect.stringMatching(one)));
});

test('the yard’s words take the place of the language’s, the others stay', () => {
  const said = phrasesFor({ language: 'en', words: { easeFeed: 'ease off' } });
  expect(said).toEqual({ ...grammarOf('en').phrases, easeFeed: 'ease off' });
});

test('nothing but letters of the language, spaces, commas, apostrophes and hyphens gets through (fuzzed)', () => {
  const nasty = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 40 }),
    fc.string({ unit: fc.constantFrom(...'stopfeed wärm,\'-;"$()`<>|&\\\n\t/.0\u0301\u202e'), maxLength: 30 }),
    fc.stringMatching(/^[a-z]{3,9}[ ,'-]{1,2}[a-zäöü]{1,9}[^a-z]?$/),
  );
  const words = fc.dictionary(fc.constantFrom(...PHRASE_NAMES), nasty, { minKeys: 1 });
  let taken = 0;
  fc.assert(
    fc.property(words, fc.constantFrom(...LANGUAGES), (given, language) => {
      const faults = faultsOfWords(given, language);
      const letters = language === 'en' ? 'A-Za-z' : 'A-Za-zÄÖÜäöüß';
      for (const [phrase, text] of Object.entries(given)) {
        if (faults.some((fault) => fault.phrase === phrase)) continue;
        taken += 1;
        expect(text).toMatch(new RegExp(`^[${letters}][${letters} ,'-]*$`));
        expect(text.length).toBeLessThanOrEqual(LONGEST_PHRASE);
      }
    }),
    { numRuns: cases(2000) },
  );
  expect(taken).toBeGreaterThan(100);
});

test('what is taken stands beside everything else: no fault appears when the others are looked at again', () => {
  const word = fc.stringMatching(/^[a-z]{3,8}( [a-z]{3,8})?$/);
  fc.assert(
    fc.property(word, word, (stopFeed, easeFeed) => {
      fc.pre(faultsOfWords({ stopFeed, easeFeed }, 'en').length === 0);
      const again = faultsOfWords(
        { ...phrasesFor({ language: 'en', words: { stopFeed, easeFeed } }), signalLost: 'lost the signal, hold' },
        'en',
      );
      expect(again.filter(({ phrase }) => phrase === 'stopFeed' || phrase === 'easeFeed')).toEqual([]);
    }),
  );
});
