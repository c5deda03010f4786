import { numberWords } from '../../../server/core/words/numberWords.ts';
import type { NumberForm } from '../../../server/core/words/voiceChoice.ts';
import type { Listened, Listening } from './listenTo.ts';
import { PLACES, type Place } from './places.ts';
import { OURS, SPEAKERS, type Speaker } from './speakers.ts';

export const FORMS: readonly NumberForm[] = ['natural', 'digits', 'two digits'];
/** The default of a job. */
export const OUR_FORM: NumberForm = 'two digits';
const TAKES = 1;
/** The default alone again, in so many other stretches of noise that one more mistake is a tenth of a hundredth. */
const DEFAULT_TAKES = 10;

/** Every half degree from 0 to 45; the ear knows that it hears one of them, and in this form. */
const figuresIn = (form: NumberForm): readonly string[] =>
  Array.from({ length: 91 }, (_, i) => numberWords(i / 2, form, 'en'));

export interface FormRow {
  readonly speaker: Speaker;
  readonly form: NumberForm;
  readonly isProcessed: boolean;
  readonly listened: Listened;
}

export function formTask(
  { speaker, form, isProcessed }: Omit<FormRow, 'listened'>,
  { places = PLACES, takes = TAKES }: { readonly places?: readonly Place[]; readonly takes?: number } = {},
): Listening {
  const texts = figuresIn(form);
  return { speaker, texts, choices: texts, isProcessed, places, takes };
}

export const FORM_CELLS: readonly Omit<FormRow, 'listened'>[] = SPEAKERS.flatMap((speaker) =>
  FORMS.flatMap((form) => [true, false].map((isProcessed) => ({ speaker, form, isProcessed }))),
);

export const defaultTask = (places: readonly Place[]): Listening =>
  formTask({ speaker: OURS, form: OUR_FORM, isProcessed: true }, { places, takes: DEFAULT_TAKES });

/** Share of what was said that was understood exactly, at a place; NaN where nothing was said. */
export function shareAt({ heard }: Listened, place: string): number {
  const there = heard.find((one) => one.place === place);
  return there === undefined ? Number.NaN : 1 - there.mistakes.length / there.said;
}
