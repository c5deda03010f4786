import { secondsText } from '../figures/durations.ts';
import type { Grammar } from './grammar.ts';
import { grammarOf } from './languages.ts';
import { ORDERS, PHRASE_NAMES, type PhraseName, type Phrases } from './phraseNames.ts';
import { apart, soundsOf, TOO_NEAR } from './soundsLike.ts';
import { spokenLengthS } from './spokenLength.ts';
import type { Language, YardWords } from './voiceChoice.ts';

/** Why a phrase of the yard's own is not taken. */
interface WordsFault {
  readonly phrase: PhraseName;
  readonly kind: 'shape' | 'length' | 'mistakable';
  /** What to do instead, in words. */
  readonly wanted: string;
}

/** What is longer than this is no phrase, in any language; less than what the voice takes at most. */
export const LONGEST_PHRASE = 120;
const LONGEST_WORD = 24;
/** A word of one or two letters is gone with the first knock of the wood. */
const SHORTEST_CLAUSE = 3;
/** A phrase may take this much longer than the language's own, and any phrase this long, in seconds. */
const LONGER = 1.5;
const SHORT_ENOUGH_S = 2;

/**
 * What is wrong with the yard's own phrases, each checked beside all that a run would then say. Empty: they are taken. Checked are
 *
 * - the shape: letters of the language, single spaces, commas, hyphens and apostrophes between them and nothing else, so that
 *   nothing else can reach a voice or a player;
 * - the length, because what follows waits for it;
 * - words that mean something else in a shop, or whose loss turns the order round;
 * - the sound, roughly (`soundsLike.ts`): against the words of numbers, those for a growing and a shrinking bevel, and the other
 *   phrases. Phrases that stop the feed may begin alike; a listener who hears only the beginning does what is right.
 *
 * It cannot know what the words mean; that a "stop" stops is the yard's to see. A rough ear: `npm run bench:voice` hears better.
 */
export function faultsOfWords(words: YardWords, language: Language): readonly WordsFault[] {
  const grammar = grammarOf(language);
  const given = PHRASE_NAMES.filter((name) => words[name] !== undefined);
  const all: Phrases = { ...grammar.phrases, ...words };
  return given.flatMap((phrase) => {
    const fault =
      faultOfShape(all[phrase], grammar) ??
      faultOfLength(phrase, all[phrase], language) ??
      faultOfWord(phrase, all[phrase], grammar) ??
      faultOfSound(phrase, all, grammar);
    return fault === undefined ? [] : [{ phrase, ...fault }];
  });
}

type Fault = Omit<WordsFault, 'phrase'>;
const mistakable = (wanted: string): Fault => ({ kind: 'mistakable', wanted });

function faultOfShape(text: string, { letters, name }: Grammar): Fault | undefined {
  if (text.length > LONGEST_PHRASE) return { kind: 'shape', wanted: `at most ${LONGEST_PHRASE} letters and spaces` };
  const word = `[${letters}]{1,${LONGEST_WORD}}(?:['-][${letters}]{1,${LONGEST_WORD}})*`;
  if (!new RegExp(`^${word}(?:,? ${word})*$`).test(text))
    return {
      kind: 'shape',
      wanted: `words in letters of the language (${name}), each at most ${LONGEST_WORD}, with single spaces, commas, hyphens and apostrophes between them`,
    };
  const short = clausesOf(text).find((clause) => clause.length < SHORTEST_CLAUSE);
  if (short !== undefined)
    return { kind: 'shape', wanted: `more than "${short}" between commas: what is so short drowns` };
  return undefined;
}

function faultOfLength(phrase: PhraseName, text: string, language: Language): Fault | undefined {
  const ownS = spokenLengthS(grammarOf(language).phrases[phrase], language);
  const atMostS = Math.max(SHORT_ENOUGH_S, LONGER * ownS);
  const lastsS = spokenLengthS(text, language);
  if (lastsS <= atMostS) return undefined;
  return {
    kind: 'length',
    wanted: `words that are said in ${secondsText(atMostS)}; these take about ${secondsText(lastsS)}`,
  };
}

function faultOfWord(phrase: PhraseName, text: string, { banned, figureWords, turns }: Grammar): Fault | undefined {
  const words = text.toLowerCase().split(/[ ,-]+/);
  for (const word of words) {
    const ban = banned.find((one) => one.words.includes(word));
    if (ban !== undefined) return mistakable(`another word than "${word}": ${ban.why}`);
    if (word === turns.more || word === turns.less)
      return mistakable(`another word than "${word}", which tells how the bevel goes`);
    if (phrase !== 'soundTest' && figureWords.includes(word))
      return mistakable(`another word than "${word}", which belongs to the figures`);
  }
  return undefined;
}

function faultOfSound(phrase: PhraseName, all: Phrases, grammar: Grammar): Fault | undefined {
  return (
    (phrase === 'soundTest' ? undefined : faultAmongFigures(all[phrase], grammar)) ??
    faultAmongPhrases(phrase, all, grammar)
  );
}

/** A clause is heard by itself; its first and last word stick out of it. */
function faultAmongFigures(text: string, { figureWords, turns, spelling }: Grammar): Fault | undefined {
  const called = [...figureWords, turns.more, turns.less].map((word) => ({ word, sounds: soundsOf(word, spelling) }));
  for (const clause of clausesOf(text)) {
    const heard = soundsOf(clause, spelling);
    const [like] = called
      .map(({ word, sounds }) => ({ word, apart: apart(heard, sounds) }))
      .sort((a, b) => a.apart - b.apart);
    if (like !== undefined && like.apart < TOO_NEAR)
      return mistakable(`other words than "${clause}", which sounds like "${like.word}"`);
    const edge = [/^[^ ]+/, /[^ ]+$/]
      .map((place) => place.exec(clause)?.[0] ?? '')
      .find((word) => called.some(({ sounds }) => sounds === soundsOf(word, spelling)));
    if (edge !== undefined)
      return mistakable(`another word than "${edge}" at the edge of "${clause}": it sounds like a figure`);
  }
  return undefined;
}

function faultAmongPhrases(phrase: PhraseName, all: Phrases, { spelling }: Grammar): Fault | undefined {
  const near = (one: string, other: string): boolean =>
    apart(soundsOf(one, spelling), soundsOf(other, spelling)) < TOO_NEAR;
  const text = all[phrase];
  const mine = openingOf(text);
  for (const other of PHRASE_NAMES.filter((name) => name !== phrase)) {
    const theirs = all[other];
    if (near(text, theirs)) return mistakable(`other words than those of ${other}, "${theirs}"`);
    const first = openingOf(theirs);
    if (!(isOrder(phrase) && isOrder(other)) && near(mine, first))
      return mistakable(`another beginning than "${mine}": ${other} begins with "${first}", and the rest may drown`);
  }
  return undefined;
}

const isOrder = (name: PhraseName): boolean => ORDERS.some((order) => order === name);
const clausesOf = (text: string): readonly string[] => text.split(/, ?/);
const openingOf = (text: string): string => clausesOf(text)[0] ?? '';
