/** Fewer words, where the crew's own feed leaves too little time for those of the yard. */

import { roundedDown } from '../figures/rounding.ts';
import type { Pace, PaceSuggestion } from '../routine/limits.ts';
import type { NumberForm, VoiceChoice } from '../words/voiceChoice.ts';

/** Of two that allow the same feed the one that is better understood in noise comes first (`npm run bench:voice`). */
const NUMBERS: readonly NumberForm[] = ['two digits', 'digits', 'natural'];
/** Other words that allow less than so much more are not worth another way of hearing. */
const WORTH = 1.1;

type Wording = Pick<VoiceChoice, 'form' | 'numbers'>;

/**
 * The words that change least and allow the crew's own feed; where none do, those that allow most, if that is worth it. The angle
 * alone in the yard's numbers comes before other numbers. `limitIn`: what `mark by mark` allows in these words, in m/min.
 */
export function otherWords(
  pace: Pace,
  feedMPerMin: number,
  own: Wording,
  limitIn: (words: Wording) => number,
): readonly PaceSuggestion[] {
  if (pace.limitMPerMin >= feedMPerMin) return [];
  const tried = [own.numbers, ...NUMBERS.filter((numbers) => numbers !== own.numbers)]
    .map((numbers): Wording => ({ form: 'angle', numbers }))
    .filter(({ form, numbers }) => form !== own.form || numbers !== own.numbers)
    .map((words) => ({ ...words, allowsMPerMin: roundedDown(limitIn(words)) }));
  const enough = tried.find(({ allowsMPerMin }) => allowsMPerMin >= feedMPerMin);
  const most = tried.reduce((best, one) => (one.allowsMPerMin > best.allowsMPerMin ? one : best), tried[0] ?? none);
  if (enough !== undefined) return [{ kind: 'words', ...enough }];
  return most.allowsMPerMin >= WORTH * pace.limitMPerMin ? [{ kind: 'words', ...most }] : [];
}

const none = { form: 'angle', numbers: 'natural', allowsMPerMin: 0 } as const;
