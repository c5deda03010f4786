import { type Called, type CallWording, callText } from './callText.ts';
import { spokenLengthS } from './spokenLength.ts';
import type { NumberForm } from './voiceChoice.ts';

/** Every number form; of two that take the same time, the one that is better understood in noise comes first. */
const FORMS: readonly NumberForm[] = ['two digits', 'digits', 'natural'];

interface WordedCall {
  readonly text: string;
  /** By the embedded voice, reckoned. */
  readonly lastsS: number;
}

/** The words that say the angle in the least time; the mark is left to the sawyer's ear. */
export function shortestCall(called: Called, { language }: Pick<CallWording, 'language'>): WordedCall {
  return FORMS.map((numbers) => {
    const text = callText(called, { language, form: 'angle', numbers });
    return { text, lastsS: spokenLengthS(text, language) };
  }).reduce((best, one) => (one.lastsS < best.lastsS ? one : best));
}
