import { english } from './en/english.ts';
import { grammarOf } from './languages.ts';
import type { Phrases } from './phraseNames.ts';
import type { VoiceChoice } from './voiceChoice.ts';

/** What a run says besides bevels, in English; `phrasesFor` gives those of a voice. */
export const phrases: Phrases = english.phrases;

/** The phrases of a language, with the yard's own words in their place where it has some. */
export const phrasesFor = ({ language, words = {} }: Pick<VoiceChoice, 'language' | 'words'>): Phrases => ({
  ...grammarOf(language).phrases,
  ...words,
});

interface Phrase {
  readonly text: string;
  readonly deg?: number;
  /** Stands only where the phrase is this one mark's. */
  readonly mark?: number;
}

/**
 * Everything that a run may say, each text once: the marks' calls in the order of the marks, the shorter forms and the figures
 * between the marks where the routine has them, then the fixed phrases.
 */
export function phrasesOfRun({
  stations,
  callTexts,
  shortTexts = [],
  shortestTexts = [],
  steps = [],
  phrases: fixed = phrases,
}: Sayable): readonly Phrase[] {
  const calls = new Map<string, Phrase>();
  const add = (text: string, deg: number, mark?: number): void => {
    const isOneMarks = mark !== undefined && !calls.has(text);
    calls.set(text, isOneMarks ? { text, deg, mark } : { text, deg });
  };
  const inOrder = stations.map((station, index) => ({ ...station, index })).sort((a, b) => a.mark - b.mark);
  for (const { mark, callDeg, index } of inOrder) add(callTexts[index] ?? '', callDeg, mark);
  for (const texts of [shortTexts, shortestTexts])
    for (const { callDeg, index } of inOrder) if (texts[index] !== undefined) add(texts[index], callDeg);
  for (const { text, callDeg } of steps) add(text, callDeg);
  return [...calls.values(), ...Object.values(fixed).map((text) => ({ text }))];
}

/** What of a run's setup its words come from. */
interface Sayable {
  readonly stations: readonly { readonly mark: number; readonly callDeg: number }[];
  readonly callTexts: readonly string[];
  readonly shortTexts?: readonly string[];
  readonly shortestTexts?: readonly string[];
  /** Those of the run's voice; the English ones where they are left out. */
  readonly phrases?: Phrases;
  readonly steps?: readonly { readonly text: string; readonly callDeg: number }[];
}
