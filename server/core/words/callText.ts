import type { VoiceChoice } from '../job.ts';
import { cardinal, digitByDigit } from './cardinal.ts';
import { numberWords } from './numberWords.ts';

/** The words of the call for one mark: "one two point five", or "mark seven, one two point five". */
export function callText(called: { readonly mark: number; readonly deg: number }, voice: VoiceChoice): string {
  const angle = numberWords(called.deg, voice.numbers);
  return voice.form === 'angle' ? angle : `mark ${markWords(called.mark)}, ${angle}`;
}

/**
 * A mark's number is spoken whole ("twelve") in every number form, so that it does not sound like the angle after it;
 * from 100 on digit by digit, as room numbers are, because it would outlast the angle.
 */
function markWords(mark: number): string {
  if (!Number.isInteger(mark) || mark < 1) throw new RangeError(`no words for mark ${mark}: wanted 1, 2, 3 ...`);
  return mark < 100 ? cardinal(mark) : digitByDigit(String(mark));
}
