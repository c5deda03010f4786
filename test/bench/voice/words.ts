import { grammarOf } from '../../../server/core/words/languages.ts';
import { numberWords } from '../../../server/core/words/numberWords.ts';
import { CANDIDATES } from '../../../server/core/words/opposites.ts';
import { heardAs } from './ear.ts';
import { OUR_FORM } from './forms.ts';
import type { Heard, Listening, Mistake } from './listenTo.ts';
import { AT_5_AND_0 } from './places.ts';
import { OURS } from './speakers.ts';

const WORD_TAKES = 24;
const FIGURE_TAKES = 2;

const { turns, stops } = CANDIDATES.en;
const { phrases, turns: ourTurns } = grammarOf('en');
const figures = Array.from({ length: 91 }, (_, i) => numberWords(i / 2, OUR_FORM, 'en'));
const ownPhrases = Object.values(phrases);
/** What is heard of a phrase before the rest drowns. */
const beginnings = ownPhrases.map((phrase) => phrase.split(',')[0] ?? '');
const words = [
  ...new Set([...turns.flatMap(({ more, less }) => [more, less]), ...stops, ...ownPhrases, ...beginnings]),
];
const choices = [...new Set([...words, ...figures])];

/** The words among which a mistake is dangerous, and the figures, for what of them might be taken for a stop. */
export const wordTasks: readonly Listening[] = [
  { speaker: OURS, texts: words, choices, isProcessed: true, places: AT_5_AND_0, takes: WORD_TAKES },
  { speaker: OURS, texts: figures, choices, isProcessed: true, places: AT_5_AND_0, takes: FIGURE_TAKES },
];

/** Everything that stops the feed may be taken for another of its kind. */
const orders = [phrases.stopFeed, phrases.signalLost, phrases.pulledBack];
const beginsToStop = (text: string): boolean => orders.some((order) => heardAs(order).startsWith(text) && text !== '');
const isStop = (text: string): boolean => beginsToStop(text) || stops.some((stop) => heardAs(stop) === text);

export interface WordsHeard {
  readonly text: string;
  readonly isOurs: boolean;
  /** Share understood, and what it was taken for how often, at each place. */
  readonly at: readonly { readonly place: string; readonly share: number; readonly takenFor: readonly string[] }[];
}

export function turnsHeard(heard: readonly Heard[]): readonly WordsHeard[] {
  return turns.flatMap(({ more, less }) =>
    [more, less].map((text) => wordHeard(text, text === ourTurns.more || text === ourTurns.less, heard)),
  );
}

export function stopsHeard(heard: readonly Heard[]): readonly WordsHeard[] {
  const all = [...new Set([...orders, ...orders.map((order) => order.split(',')[0] ?? ''), ...stops])];
  return all.map((text) => wordHeard(text, beginsToStop(heardAs(text)), heard, isStop));
}

function wordHeard(
  text: string,
  isOurs: boolean,
  heard: readonly Heard[],
  isAsGood: (taken: string) => boolean = () => false,
): WordsHeard {
  return {
    text,
    isOurs,
    at: heard.map(({ place, mistakes }) => {
      const wrong = mistakes.filter(({ said, heard: taken }) => said === heardAs(text) && !isAsGood(taken));
      return { place, share: 1 - wrong.length / WORD_TAKES, takenFor: tally(wrong.map(({ heard: taken }) => taken)) };
    }),
  };
}

/** What must never be at +5: our word for more taken for less, an order to stop for anything else, anything else for a stop. */
export function dangerous(heard: readonly Heard[]): readonly Mistake[] {
  const pair = [ourTurns.more, ourTurns.less];
  return heard
    .filter(({ place }) => place === '+5')
    .flatMap(({ mistakes }) => mistakes)
    .filter(
      ({ said, heard: taken }) =>
        (pair.includes(said) && pair.includes(taken)) ||
        (beginsToStop(said) && !isStop(taken)) ||
        (!isStop(said) && beginsToStop(taken)),
    );
}

function tally(taken: readonly string[]): readonly string[] {
  const counts = new Map<string, number>();
  for (const text of taken) counts.set(text, (counts.get(text) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1]).map(([text, count]) => `${text === '' ? 'nothing' : text} ${count}`);
}
