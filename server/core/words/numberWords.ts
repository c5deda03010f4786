import type { NumberForm } from '../job.ts';
import { cardinal, digitByDigit } from './cardinal.ts';
import { hundredths } from './hundredths.ts';

/**
 * A readout's figure in words. Readouts step by 0.05 degrees or more, so that hundredths tell any two of them apart.
 *
 * - `natural`: "twelve", "twelve and a half", "twelve and three quarters", "twelve point three".
 * - `digits`: "one two point five", "one two point zero", "seven point two five".
 * - `two digits`: "one two decimal five", "zero seven decimal zero".
 *
 * In the digit forms the first decimal is always spoken: were a whole degree "one two" alone, a half whose end the saw
 * drowns would pass for it; so, an unfinished call is heard to be unfinished. For the same reason 0.5 is "zero and a half":
 * "a half" alone is also what is left of "seven and a half".
 *
 * @throws RangeError from 100 degrees on, where no bevel is.
 */
export function numberWords(deg: number, form: NumberForm): string {
  const all = hundredths(deg);
  const size = Math.abs(all);
  if (!(size < 10_000)) throw new RangeError(`no words for ${deg} degrees: wanted less than 100`);
  const whole = Math.floor(size / 100);
  const words = SPELLED[form](whole, size % 100);
  return all < 0 ? `minus ${words}` : words;
}

type Spell = (whole: number, hundredths: number) => string;
const SPELLED: Readonly<Record<NumberForm, Spell>> = {
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
