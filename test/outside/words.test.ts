import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { digitByDigit } from '../../server/core/words/en/englishCardinal.ts';
import { numberWords } from '../../server/core/words/numberWords.ts';

interface Spelled {
  readonly cardinals: Readonly<Record<'en' | 'de', readonly string[]>>;
  readonly quarters: Readonly<Record<'en' | 'de', readonly string[]>>;
}
const { cardinals, quarters }: Spelled = JSON.parse(
  readFileSync(new URL('./fixtures/num2words-cardinals.json', import.meta.url), 'utf8'),
);

/**
 * Source: num2words 0.5.10, a general library of number words, run once (`fixtures/num2words_cardinals.py`): read.
 * It knows whole numbers and decimals; how fractions join on is common English and German usage, from memory (German "eineinhalb",
 * "eindreiviertel": one word, its unit "ein" without its s), put together below in another way than the program does.
 */
const LANGUAGES = ['en', 'de'] as const;
const upTo = (count: number): readonly number[] => Array.from({ length: count }, (_, i) => i);

test('every whole degree is spelled as the library spells it', () => {
  for (const language of LANGUAGES)
    for (const whole of upTo(100)) expect(numberWords(whole, 'natural', language)).toBe(cardinals[language][whole]);
});

test('every quarter degree from 0 to 45 in English', () => {
  for (const n of upTo(181)) {
    const [whole, fraction] = [cardinals.en[Math.trunc(n / 4)], ['', 'a quarter', 'a half', 'three quarters'][n % 4]];
    const wanted = [whole, fraction].filter(Boolean).join(' and ');
    expect(numberWords(n / 4, 'natural', 'en')).toBe(wanted);
  }
});

test('every quarter degree from 0 to 45 in German', () => {
  for (const n of upTo(181)) {
    const whole = (cardinals.de[Math.trunc(n / 4)] ?? '').replace(/^eins$/, 'ein');
    const fraction = ['', 'einviertel', 'einhalb', 'dreiviertel'][n % 4] ?? '';
    const belowOne = (quarters.de[n] ?? '').replaceAll('zwei', 'zwo');
    const wanted = n % 4 === 0 ? cardinals.de[n / 4] : n < 4 ? belowOne : whole + fraction;
    expect(numberWords(n / 4, 'natural', 'de')).toBe(wanted);
  }
});

/**
 * The digit forms from the figure as it is printed, letter by letter: each digit is the library's cardinal, the point a word.
 * German two is "zwo" there (common practice on the radio and the telephone, no source read).
 */
const radio = (language: 'en' | 'de', printed: string, point: string): string =>
  [...printed]
    .map((char) => (char === '.' ? point : cardinals[language][char.charCodeAt(0) - 48]))
    .join(' ')
    .replaceAll('zwei', 'zwo');

test('every quarter, tenth and twentieth from 0 to 45 in the digit forms, also on the other side of square', () => {
  const degrees = new Set([...upTo(181).map((n) => n / 4), ...upTo(901).map((n) => n / 20)]);
  for (const language of LANGUAGES)
    for (const deg of degrees) {
      const printed = Number.isInteger(deg * 10) ? deg.toFixed(1) : deg.toFixed(2);
      const point = language === 'de' ? 'Komma' : 'point';
      const minus = deg === 0 ? '' : 'minus ';
      const [digits, two] = [
        radio(language, printed, point),
        radio(
          language,
          printed.padStart(printed.indexOf('.') === 1 ? printed.length + 1 : 0, '0'),
          language === 'de' ? 'Komma' : 'decimal',
        ),
      ];
      expect(numberWords(deg, 'digits', language)).toBe(digits);
      expect(numberWords(deg, 'two digits', language)).toBe(two);
      expect(numberWords(-deg, 'digits', language)).toBe(minus + digits);
      expect(numberWords(-deg, 'two digits', language)).toBe(minus + two);
    }
});

test('what is neither whole nor a quarter is a decimal in the natural form too', () => {
  for (const language of LANGUAGES)
    for (const n of upTo(901)) {
      if (n % 5 === 0) continue;
      const [whole, part] = (n / 20).toFixed(2).split('.') as [string, string];
      const point = language === 'de' ? 'Komma' : 'point';
      const tail = radio(language, part.endsWith('0') ? part.slice(0, 1) : part, point);
      expect(numberWords(n / 20, 'natural', language)).toBe(`${cardinals[language][Number(whole)]} ${point} ${tail}`);
    }
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
  expect('one two two decimal one'.endsWith(numberWords(22.1, 'two digits', 'en'))).toBe(true);
  expect(numberWords(22.1, 'two digits', 'en')).toBe('two two decimal one');
});

/** Source: ICAO Annex 10 vol. II 5.2.1.4.1.1, examples (second-hand): heading 080 "zero eight zero", 27 "two seven", 30 "three zero". */
test('a leading zero and a closing zero are spoken', () => {
  expect(digitByDigit('080')).toBe('zero eight zero');
  expect(numberWords(27, 'two digits', 'en').startsWith('two seven ')).toBe(true);
  expect(numberWords(30, 'two digits', 'en').startsWith('three zero ')).toBe(true);
});
