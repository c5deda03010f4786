import fc from 'fast-check';
import { expect, test } from 'vitest';
import { LANGUAGES } from '../../../server/core/words/languages.ts';
import { numberWords } from '../../../server/core/words/numberWords.ts';

const FORMS = ['natural', 'digits', 'two digits'] as const;

test('a whole degree and its half, in each form', () => {
  expect(FORMS.map((form) => numberWords(12, form, 'en'))).toEqual([
    'twelve',
    'one two point zero',
    'one two decimal zero',
  ]);
  expect(FORMS.map((form) => numberWords(12.5, form, 'en'))).toEqual([
    'twelve and a half',
    'one two point five',
    'one two decimal five',
  ]);
});

test('below ten, two digits are always two', () => {
  expect(FORMS.map((form) => numberWords(7.5, form, 'en'))).toEqual([
    'seven and a half',
    'seven point five',
    'zero seven decimal five',
  ]);
});

test('quarters, tenths and twentieths', () => {
  expect(numberWords(12.25, 'natural', 'en')).toBe('twelve and a quarter');
  expect(numberWords(12.75, 'natural', 'en')).toBe('twelve and three quarters');
  expect(numberWords(12.3, 'natural', 'en')).toBe('twelve point three');
  expect(numberWords(12.05, 'natural', 'en')).toBe('twelve point zero five');
  expect(numberWords(12.75, 'digits', 'en')).toBe('one two point seven five');
  expect(numberWords(12.05, 'two digits', 'en')).toBe('one two decimal zero five');
});

test('the other side of square begins with minus; zero never does', () => {
  expect(numberWords(-3.5, 'natural', 'en')).toBe('minus three and a half');
  expect(numberWords(-0.5, 'natural', 'en')).toBe('minus zero and a half');
  expect(numberWords(-3.5, 'two digits', 'en')).toBe('minus zero three decimal five');
  expect(numberWords(-0, 'natural', 'en')).toBe('zero');
  expect(numberWords(-0.001, 'digits', 'en')).toBe('zero point zero');
});

test('the dust of binary fractions is not spoken', () => {
  expect(numberWords(0.1 + 0.2, 'digits', 'en')).toBe('zero point three');
  expect(numberWords(11.999999999, 'natural', 'en')).toBe('twelve');
});

test('where no bevel is there are no words', () => {
  for (const deg of [100, -100, Number.NaN, Number.POSITIVE_INFINITY]) {
    expect(() => numberWords(deg, 'natural', 'en'), String(deg)).toThrow(String(deg));
  }
});

test('German: units before tens, a comma, a lone two that is no three, halves on the word', () => {
  const all = (deg: number) => FORMS.map((form) => numberWords(deg, form, 'de'));
  expect(all(22.5)).toEqual(['zweiundzwanzigeinhalb', 'zwo zwo Komma fünf', 'zwo zwo Komma fünf']);
  expect(all(7)).toEqual(['sieben', 'sieben Komma null', 'null sieben Komma null']);
  expect(all(1.25)).toEqual(['eineinviertel', 'eins Komma zwo fünf', 'null eins Komma zwo fünf']);
  expect(all(-0.75)[0]).toBe('minus null Komma sieben fünf');
  expect(all(31.3)[0]).toBe('einunddreißig Komma drei');
});

test('two figures of one readout never share their words, and the words are words only', () => {
  const step = fc.double({ min: 0.05, max: 5, noNaN: true });
  const count = fc.integer({ min: -1000, max: 1000 });
  fc.assert(
    fc.property(
      step,
      count,
      count,
      fc.constantFrom(...FORMS),
      fc.constantFrom(...LANGUAGES),
      (stepDeg, one, other, form, language) => {
        fc.pre(one !== other && Math.abs(one * stepDeg) < 99.9 && Math.abs(other * stepDeg) < 99.9);
        const [a, b] = [numberWords(one * stepDeg, form, language), numberWords(other * stepDeg, form, language)];
        expect(a).not.toBe(b);
        expect(a).toMatch(/^[a-zäöüßK]+([ -][a-zäöüßK]+)*$/);
      },
    ),
  );
});

test('no call of a half-degree readout is the beginning of another in the digit forms, where an unheard end would go unnoticed', () => {
  for (const language of LANGUAGES)
    for (const form of ['digits', 'two digits'] as const) {
      const calls = Array.from({ length: 91 }, (_, i) => numberWords(i / 2, form, language));
      for (const call of calls) expect(calls.filter((other) => other.startsWith(`${call} `))).toEqual([]);
    }
});
