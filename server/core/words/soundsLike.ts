/**
 * How near two spellings are to each other by ear, roughly, without a pronouncing dictionary: each is written out in sounds
 * by the language's rules of spelling, and the sounds are laid against each other (weighted edit distance, Wagner and Fischer
 * 1974). Noise takes away first where in the mouth a consonant is made, then its voicing, last whether it is a stop, a hiss or
 * hummed (Miller and Nicely 1955, from memory): so p for t costs little, p for b more, p for m much. Vowels carry furthest.
 */
import { lastRow, rowAt } from '../rowAt.ts';

/** Rules in the order in which they are tried at each place: what is written there, and the sounds it stands for (see `KINDS`). */
export type Spelling = readonly SpellingRule[];
type SpellingRule = readonly [written: RegExp, sounds: string];

/** Makes rules that are held against the one place where the reading has come to. `^` is the word's beginning, `$` its end. */
export const spelledAs = (rules: readonly SpellingRule[]): Spelling =>
  rules.map(([written, sounds]) => [new RegExp(written.source, 'uy'), sounds]);

/** Sounds by their kind. Capitals: S as in "she", X the hiss in "ich" and "ach", C as in "church", A "eye", E "day", O "now", Y "boy". */
const KINDS = {
  stop: 'ptk',
  voicedStop: 'bdg',
  hiss: 'fsSXh',
  voicedHiss: 'vzw',
  struck: 'CJ',
  hummed: 'mn',
  liquid: 'lrj',
  vowel: 'aeiouüöAEOY',
} as const;
type Kind = keyof typeof KINDS;
const KIND_OF: ReadonlyMap<string, Kind> = new Map(
  (Object.keys(KINDS) as Kind[]).flatMap((kind) => [...KINDS[kind]].map((sound) => [sound, kind] as const)),
);

/** Pairs that the noise takes for each other more easily than others: vowels, and the voiced with the voiceless. */
const NEAR_VOWELS = ['ie', 'ea', 'ao', 'ou', 'üi', 'öe', 'üu', 'öü', 'Aa', 'AY', 'EA', 'Ee', 'Ei', 'Oa', 'Oo', 'Yo'];
const NEAR_KINDS: readonly (readonly [Kind, Kind])[] = [
  ['stop', 'voicedStop'],
  ['hiss', 'voicedHiss'],
  ['struck', 'hiss'],
  ['struck', 'stop'],
];

/** The text in sounds, one letter each; what no rule knows makes no sound. */
export function soundsOf(text: string, spelling: Spelling): string {
  const words = text
    .toLowerCase()
    .replace(/[^\p{L}' ]/gu, ' ')
    .split(' ');
  // Doubled letters are one sound.
  return words
    .map((word) => soundsOfWord(word, spelling))
    .join('')
    .replace(/([^aeiou])\1+/g, '$1');
}

function soundsOfWord(word: string, spelling: Spelling): string {
  let sounds = '';
  let at = 0;
  while (at < word.length) {
    let taken = 1;
    for (const [written, sound] of spelling) {
      written.lastIndex = at;
      if (!written.test(word)) continue;
      taken = written.lastIndex - at;
      sounds += sound;
      break;
    }
    at += taken;
  }
  return sounds;
}

/** 0: sound the same; about 0.8: nothing in common. Both in sounds. */
export function apart(one: string, other: string): number {
  if (one === other) return 0;
  let row = [0];
  for (let i = 0; i < other.length; i += 1) row.push(rowAt(row, i) + lost(other.charAt(i)));
  for (const sound of one) {
    const gone = lost(sound);
    const next = [rowAt(row, 0) + gone];
    for (let i = 0; i < other.length; i += 1) {
      const theirs = other.charAt(i);
      const swapped = rowAt(row, i) + changed(sound, theirs);
      next.push(Math.min(swapped, rowAt(row, i + 1) + gone, rowAt(next, i) + lost(theirs)));
    }
    row = next;
  }
  return (lastRow(row) * 2) / (one.length + other.length);
}

/**
 * Nearer than this, two words count as taken for each other: above thirteen/thirty, fourteen/forty and sixteen/fifteen, which a
 * recogniser mistook in noise, below all that a run says today. It finds no pair that shares little but its vowels (nine/five).
 */
export const TOO_NEAR = 0.3;

/** A vowel that is lost or heard too many makes another number of syllables. */
const lost = (sound: string): number => (KIND_OF.get(sound) === 'vowel' ? 0.9 : 0.6);

/** What each sound costs that is heard as another, reckoned once for all pairs. */
const CHANGED: ReadonlyMap<string, number> = new Map(
  [...KIND_OF].flatMap(([one, a]) =>
    [...KIND_OF].map(([other, b]) => [one + other, costOf(one, a, other, b)] as const),
  ),
);
const changed = (one: string, other: string): number => CHANGED.get(one + other) ?? 1.5;

function costOf(one: string, a: Kind, other: string, b: Kind): number {
  if (one === other) return 0;
  if (a === 'vowel' && b === 'vowel')
    return NEAR_VOWELS.some((pair) => pair.includes(one) && pair.includes(other)) ? 0.4 : 0.8;
  if (a === 'vowel' || b === 'vowel') return 1.5;
  if (a === b) return 0.25;
  return NEAR_KINDS.some((pair) => pair.includes(a) && pair.includes(b)) ? 0.4 : 0.7;
}
