import { grammarOf } from './languages.ts';
import { hundredths } from './turnWord.ts';
import type { Language, NumberForm } from './voiceChoice.ts';

/**
 * A readout's figure in words of a language (see its `Grammar`). Readouts step by 0.05 degrees or more, so that hundredths
 * tell any two of them apart.
 *
 * In the digit forms the first decimal is always spoken: were a whole degree "one two" alone, a half whose end the saw
 * drowns would pass for it; so, an unfinished call is heard to be unfinished.
 *
 * @throws RangeError from 100 degrees on, where no bevel is.
 */
export function numberWords(deg: number, form: NumberForm, language: Language): string {
  const all = hundredths(deg);
  const size = Math.abs(all);
  if (!(size < 10_000)) throw new RangeError(`no words for ${deg} degrees: wanted less than 100`);
  const { figure, minus } = grammarOf(language);
  const words = figure[form](Math.floor(size / 100), size % 100);
  return all < 0 ? `${minus} ${words}` : words;
}
