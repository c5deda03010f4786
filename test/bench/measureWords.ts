/**
 * How long the embedded voices take for each word that a run may say. Renders all kinds of calls with the real voice and finds
 * the word lengths that reckon them best (least relative squares); writes the tables, one a language, that core/words reckons by. Run it again when the voice,
 * its processing or the phrases change.
 */
import { writeFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { SAMPLE_RATE_HZ } from '../../audio/pcm/format.ts';
import { makeClip } from '../../audio/pcm/makeClip.ts';
import { loadEmbedded } from '../../audio/voice/embedded.ts';
import { VOICE_NAMES, WORDS_PER_MIN } from '../../audio/voice/settings.ts';
import { callText } from '../../server/core/words/callText.ts';
import { grammarOf, LANGUAGES } from '../../server/core/words/languages.ts';
import { numberWords } from '../../server/core/words/numberWords.ts';
import { CANDIDATES } from '../../server/core/words/opposites.ts';
import { wordsIn } from '../../server/core/words/spokenLength.ts';
import type { Language } from '../../server/core/words/voiceChoice.ts';

const TABLES: Readonly<Record<Language, string>> = {
  en: 'en/englishMeasuredWords.ts',
  de: 'de/germanMeasuredWords.ts',
};
const tableOf = (language: Language): string =>
  fileURLToPath(new URL(`../../server/core/words/${TABLES[language]}`, import.meta.url));
const FORMS = ['natural', 'digits', 'two digits'] as const;
/** What stands for a comma. */
const PAUSE = '(pause)';

const upTo = (count: number): readonly number[] => Array.from({ length: count }, (_, i) => i);

function corpus(language: Language): readonly string[] {
  const degrees = [
    ...upTo(91).map((i) => i / 2),
    ...upTo(60).map((i) => i * 0.75 + 0.25),
    ...upTo(60).map((i) => i * 0.7 + 0.05),
    ...upTo(20).map((i) => -i * 0.6 - 0.5),
    ...upTo(20).map((i) => 45 + i * 2.5),
  ];
  const calls = FORMS.flatMap((numbers) => [
    ...degrees.map((deg) => numberWords(deg, numbers, language)),
    ...upTo(90).map((i) =>
      callText({ mark: i < 60 ? i + 1 : i * 21, deg: i / 2 }, { language, form: 'mark and angle', numbers }),
    ),
  ]);
  const clauses = Object.values(grammarOf(language).phrases).flatMap((phrase) => [phrase, ...phrase.split(', ')]);
  const { turns, stops } = CANDIDATES[language];
  return [...new Set([...calls, ...clauses, ...turns.flatMap(({ more, less }) => [more, less]), ...stops])];
}

/** A word at the end of its clause is drawn out, and more so alone: each is measured apart. */
const atEnd = (word: string): string => `${word}.`;
const alone = (word: string): string => `${word}!`;
function clauseParts(clause: string, language: Language): readonly string[] {
  const words = wordsIn(clause, language);
  if (words.length === 1) return words.map(alone);
  return words.map((word, i) => (i === words.length - 1 ? atEnd(word) : word));
}
const partsOf = (text: string, language: Language): readonly string[] =>
  text.split(',').flatMap((clause, i) => [...(i === 0 ? [] : [PAUSE]), ...clauseParts(clause, language)]);

interface Heard {
  readonly parts: readonly string[];
  readonly seconds: number;
}

/**
 * Coordinate descent: each part in turn takes the length that leaves the least squares of relative error, none negative.
 * Words that only ever stand together share what they take in the proportion of their letters, where they begin.
 */
function reckonLengths(heard: readonly Heard[]): ReadonlyMap<string, number> {
  const lengths = new Map<string, number>(
    heard.flatMap(({ parts }) => parts.map((part) => [part, part.length * 0.065])),
  );
  const reckoned = ({ parts }: Heard): number => parts.reduce((sum, part) => sum + (lengths.get(part) ?? 0), 0);
  for (let round = 0; round < 400; round += 1) {
    for (const [part, length] of lengths) {
      let pull = 0;
      let weight = 0;
      for (const one of heard) {
        const times = one.parts.filter((other) => other === part).length / one.seconds;
        if (times === 0) continue;
        pull += times * (1 - reckoned(one) / one.seconds);
        weight += times * times;
      }
      lengths.set(part, Math.max(0, length + pull / weight));
    }
  }
  return lengths;
}

function table(lengths: ReadonlyMap<string, number>): string {
  const words = [...new Set([...lengths.keys()].map((part) => part.replace(/[.!]$/, '')))]
    .filter((part) => part !== PAUSE)
    .sort()
    .map((word) => {
      const [within, last, single] = [lengths.get(word), lengths.get(atEnd(word)), lengths.get(alone(word))];
      const any = within ?? last ?? single ?? 0;
      return { word, within: any, last: last ?? any, alone: single ?? last ?? any };
    });
  const letters = words.reduce((sum, { word }) => sum + word.length, 0);
  const seconds = words.reduce((sum, { within }) => sum + within, 0);
  const ms = (length: number): number => Math.round(length * 1000);
  return `import type { MeasuredWords } from '../grammar.ts';

/** Measured from the embedded voice and written by \`node test/bench/measureWords.mjs\`; not to be changed by hand. */
export const MEASURED: MeasuredWords = {
  pauseMs: ${ms(lengths.get(PAUSE) ?? 0)},
  letterMs: ${ms(seconds / letters)},
  wordsMs: {
${words.map((word) => `    ${word.word}: [${ms(word.within)}, ${ms(word.last)}, ${ms(word.alone)}],`).join('\n')}
  },
};
`;
}

async function measure(language: Language): Promise<void> {
  const say = await loadEmbedded({ name: VOICE_NAMES[language], wordsPerMin: WORDS_PER_MIN });
  const heard = corpus(language).map((text) => ({
    text,
    parts: partsOf(text, language),
    seconds: makeClip(say(text)).length / SAMPLE_RATE_HZ,
  }));
  const lengths = reckonLengths(heard);
  await writeFile(tableOf(language), table(lengths));
  const errors = heard
    .map(({ text, parts, seconds }) => ({
      text,
      off: parts.reduce((sum, part) => sum + (lengths.get(part) ?? 0), 0) / seconds - 1,
    }))
    .sort((a, b) => Math.abs(b.off) - Math.abs(a.off));
  console.log(`${language}: ${heard.length} phrases, ${lengths.size} words and pauses; farthest off:`);
  for (const { text, off } of errors.slice(0, 10)) console.log(`  ${(off * 100).toFixed(1).padStart(6)} %  ${text}`);
}

for (const language of LANGUAGES) await measure(language);
