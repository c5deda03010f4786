import type { Grammar } from '../grammar.ts';
import { cardinal, digitByDigit, joined } from './germanCardinal.ts';

/**
 * - `natural`: "zwölf", "zwölfeinhalb", "einundzwanzigdreiviertel", "zwölf Komma drei".
 * - `digits`: "eins zwo Komma fünf", "sieben Komma zwo fünf".
 * - `two digits`: "eins zwo Komma fünf", "null sieben Komma null".
 *
 * Two is "zwo" where digits are read out, as on the radio; in a whole number it is "zwei", as it is written ("zwoundzwanzig" the
 * embedded voice reads as one syllable). Below one degree `natural` says "null Komma fünf": "einhalb" alone is also what is
 * left of "siebeneinhalb".
 */
export const figure: Grammar['figure'] = {
  natural: (whole, part) => {
    if (part === 0) return cardinal(whole);
    const fraction = whole === 0 ? undefined : FRACTIONS[part];
    return fraction === undefined ? `${cardinal(whole)} Komma ${decimals(part)}` : `${joined(whole)}${fraction}`;
  },
  digits: (whole, part) => `${digitByDigit(String(whole))} Komma ${decimals(part)}`,
  'two digits': (whole, part) => `${digitByDigit(String(whole).padStart(2, '0'))} Komma ${decimals(part)}`,
};

const FRACTIONS: Readonly<Record<number, string>> = { 25: 'einviertel', 50: 'einhalb', 75: 'dreiviertel' };

const decimals = (part: number): string =>
  digitByDigit(part % 10 === 0 ? String(part / 10) : String(part).padStart(2, '0'));

/** Whole up to 99, so that it does not sound like the angle after it; then digit by digit, or it would outlast the angle. */
export const mark = (number: number): string =>
  `Marke ${number < 100 ? cardinal(number) : digitByDigit(String(number))}`;
