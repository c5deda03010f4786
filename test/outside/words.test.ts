import { expect, test } from 'vitest';
import { digitByDigit } from '../../server/core/words/cardinal.ts';
import { numberWords } from '../../server/core/words/numberWords.ts';

/**
 * English numerals 0 to 45, one by one, compounds from 21 on with a hyphen, as dictionaries and style guides have them.
 * Source: common English spelling, from memory; listed by hand, not made by the rule under test.
 */
const NUMERALS = (
  'zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen ' +
  'eighteen nineteen twenty twenty-one twenty-two twenty-three twenty-four twenty-five twenty-six twenty-seven ' +
  'twenty-eight twenty-nine thirty thirty-one thirty-two thirty-three thirty-four thirty-five thirty-six thirty-seven ' +
  'thirty-eight thirty-nine forty forty-one forty-two forty-three forty-four forty-five'
).split(' ');

test('every whole, quarter, half and three-quarter degree to 45 is spelled as English spells it', () => {
  expect(NUMERALS).toHaveLength(46);
  const fractions = ['', ' and a quarter', ' and a half', ' and three quarters'];
  NUMERALS.forEach((numeral, whole) => {
    fractions.forEach((fraction, quarters) => {
      expect(numberWords(whole + quarters / 4, 'natural')).toBe(numeral + fraction);
    });
  });
});

/**
 * Source: UK Civil Aviation Authority, CAP 413 Radiotelephony Manual, chapter 2, 1.4 "Transmission of Numbers", tables 2 and 3
 * (read in a copy), which follow ICAO Annex 10 vol. II 5.2.1.4 (second-hand): each digit by itself, the point "decimal".
 * The published words for the digits are plain English (ZERO ONE TWO ...); WUN, TOO, FOWER are how they are to be pronounced.
 */
test.each([
  ['246', 'two four six'],
  ['180', 'one eight zero'],
  ['150', 'one five zero'],
  ['6500', 'six five zero zero'],
])('radiotelephony says %s as "%s"', (digits, words) => {
  expect(digitByDigit(digits)).toBe(words);
});

test('radiotelephony says 122.1 as "one two two decimal one": our two digits before it are its last two', () => {
  expect('one two two decimal one'.endsWith(numberWords(22.1, 'two digits'))).toBe(true);
  expect(numberWords(22.1, 'two digits')).toBe('two two decimal one');
});

/** Source: ICAO Annex 10 vol. II 5.2.1.4.1.1, examples (second-hand): heading 080 "zero eight zero", 27 "two seven", 30 "three zero". */
test('a leading zero and a closing zero are spoken', () => {
  expect(digitByDigit('080')).toBe('zero eight zero');
  expect(numberWords(27, 'two digits').startsWith('two seven ')).toBe(true);
  expect(numberWords(30, 'two digits').startsWith('three zero ')).toBe(true);
});
