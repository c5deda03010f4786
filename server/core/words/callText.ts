import { grammarOf } from './languages.ts';
import { numberWords } from './numberWords.ts';
import type { VoiceChoice } from './voiceChoice.ts';

/** What of the voice's choice a call is worded by. */
export type CallWording = Pick<VoiceChoice, 'language' | 'form' | 'numbers'>;

export interface Called {
  readonly mark: number;
  readonly deg: number;
}

/** The words of the call for one mark: "one two point five", or "mark seven, one two point five". */
export function callText({ mark, deg }: Called, { language, form, numbers }: CallWording): string {
  const angle = numberWords(deg, numbers, language);
  if (form === 'angle') return angle;
  if (!Number.isInteger(mark) || mark < 1) throw new RangeError(`no words for mark ${mark}: wanted 1, 2, 3 ...`);
  return `${grammarOf(language).mark(mark)}, ${angle}`;
}
