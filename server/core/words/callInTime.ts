import type { NumberForm } from '../job.ts';
import { type Called, type CallWording, callText } from './callText.ts';
import { spokenLengthS } from './spokenLength.ts';

/** Every number form; of two that take the same time, the one that is better understood in noise comes first. */
const FORMS: readonly NumberForm[] = ['digits', 'two digits', 'natural'];

export interface WordedCall {
  readonly text: string;
  readonly form: CallWording['form'];
  readonly numbers: NumberForm;
  /** By the embedded voice, reckoned. */
  readonly lastsS: number;
}

/** The words that say the angle in the least time; the mark is left to the sawyer's ear. */
export function shortestCall(called: Called, { language }: Pick<CallWording, 'language'>): WordedCall {
  return FORMS.map((numbers) => worded(called, { language, form: 'angle', numbers })).reduce((best, one) =>
    one.lastsS < best.lastsS ? one : best,
  );
}

/**
 * The words of a call for the time that there is: as the yard has chosen where that fits; else the angle alone in the yard's
 * numbers, because an ear that waits for one form hears it better than another; else the shortest of all forms. `fits` is
 * false where even that takes longer than `availableS`.
 */
export function callInTime(
  called: Called,
  voice: CallWording,
  availableS: number,
): WordedCall & { readonly fits: boolean } {
  const own = worded(called, voice);
  const bare = worded(called, { ...voice, form: 'angle' });
  const shortest = shortestCall(called, voice);
  const fitting = [own, bare, shortest].find(({ lastsS }) => lastsS <= availableS);
  return { ...(fitting ?? shortest), fits: fitting !== undefined };
}

function worded(called: Called, { language, form, numbers }: CallWording): WordedCall {
  const text = callText(called, { language, form, numbers });
  return { text, form, numbers, lastsS: spokenLengthS(text, language) };
}
