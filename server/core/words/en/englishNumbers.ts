import type { Grammar } from '../grammar.ts';
import { cardinal, digitByDigit } from './englishCardinal.ts';

/**
 * - `natural`: "twelve", "twelve and a half", "twelve and three quarters", "twelve point three".
 * - `digits`: "one two point five", "one two point zero", "seven point two five".
 * - `two digits`: "one two decimal five", "zero seven decimal zero".
 *
 * 0.5 is "zero and a half": "a half" alone is also what is left of "seven and a half".
 */
export const figure: Grammar['figure'] = {
  natural: (whole, part) => {
    const tail = part === 0 ? '' : (FRACTIONS[part] ?? `point ${decimals(part)}`);
    return tail === '' ? cardinal(whole) : `${cardinal(whole)} ${tail}`;
  },
  digits: (whole, part) => `${digitByDigit(String(whole))} point ${decimals(part)}`,
  'two digits': (whole, part) => `${digitByDigit(String(whole).padStart(2, '0'))} decimal ${decimals(part)}`,
};

const FRACTIONS: Readonly<Record<number, string>> = {
  25: 'and a quarter',
  50: 'and a half',
  75: 'and three quarters',
};

const decimals = (part: number): string =>
  digitByDigit(part % 10 === 0 ? String(part / 10) : String(part).padStart(2, '0'));

/**
 * A mark's number is spoken whole ("twelve") in every number form, so that it does not sound like the angle after it;
 * from 100 on digit by digit, as room numbers are, because it would outlast the angle.
 */
export const mark = (number: number): string =>
  `mark ${number < 100 ? cardinal(number) : digitByDigit(String(number))}`;
