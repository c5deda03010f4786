/**
 * How long the embedded voice takes for each word that a run may say. Renders all kinds of calls with the real voice and finds
 * the word lengths that reckon them best (least relative squares); writes the table that core/words reckons by. Run it again when the voice,
 * its processing or the phrases change.
 */
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { openClips } from '../../audio/clips.ts';
import { callText } from '../../server/core/words/callText.ts';
import { numberWords } from '../../server/core/words/numberWords.ts';
import { phrases } from '../../server/core/words/phrases.ts';
import { wordsIn } from '../../server/core/words/spokenLength.ts';

const TABLE = fileURLToPath(new URL('../../server/core/words/measuredWords.ts', import.meta.url));
const FORMS = ['natural', 'digits', 'two digits'] as const;
/** What stands for a comma. */
const PAUSE = '(pause)';

const upTo = (count: number): readonly number[] => Array.from({ length: count }, (_, i) => i);

function corpus(): readonly string[] {
  const degrees = [
    ...upTo(91).map((i) => i / 2),
    ...upTo(60).map((i) => i * 0.75 + 0.25),
    ...upTo(60).map((i) => i * 0.7 + 0.05),
    ...upTo(20).map((i) => -i * 0.6 - 0.5),
    ...upTo(20).map((i) => 45 + i * 2.5),
  ];
  const calls = FORMS.flatMap((numbers) => [
    ...degrees.map((deg) => numberWords(deg, numbers)),
    ...upTo(90).map((i) =>
      callText({ mark: i < 60 ? i + 1 : i * 21, deg: i / 2 }, { language: 'en', form: 'mark and angle', numbers }),
    ),
  ]);
  const clauses = Object.values(phrases).flatMap((phrase) => [phrase, ...phrase.split(', ')]);
  return [...new Set([...calls, ...clauses])];
}

/** A word at the end of its clause is drawn out, and more so alone: each is measured apart. */
const atEnd = (word: string): string => `${word}.`;
const alone = (word: string): string => `${word}!`;
function clauseParts(clause: string): readonly string[] {
  const words = wordsIn(clause);
  if (words.length === 1) return words.map(alone);
  return words.map((word, i) => (i === words.length - 1 ? atEnd(word) : word));
}
const partsOf = (text: string): readonly string[] =>
  text.split(',').flatMap((clause, i) => [...(i === 0 ? [] : [PAUSE]), ...clauseParts(clause)]);

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
  return `/** Measured from the embedded voice and written by \`node test/bench/measureWords.mjs\`; not to be changed by hand. Milliseconds. */

/** For each comma. */
export const PAUSE_MS = ${ms(lengths.get(PAUSE) ?? 0)};
/** For each letter of a word that is not in the table. */
export const LETTER_MS = ${ms(seconds / letters)};

/** [within a clause, as its last word, as its only word] */
export const WORDS_MS: Readonly<Record<string, readonly [number, number, number]>> = {
${words.map((word) => `  ${word.word}: [${ms(word.within)}, ${ms(word.last)}, ${ms(word.alone)}],`).join('\n')}
};
`;
}

const dataDir = await mkdtemp(join(tmpdir(), 'measure-words-'));
const clips = openClips({ dataDir });
try {
  const heard = (await clips.render(corpus())).map(({ text, durationMs }) => ({
    text,
    parts: partsOf(text),
    seconds: durationMs / 1000,
  }));
  const lengths = reckonLengths(heard);
  await writeFile(TABLE, table(lengths));
  const errors = heard
    .map(({ text, parts, seconds }) => ({
      text,
      off: parts.reduce((sum, part) => sum + (lengths.get(part) ?? 0), 0) / seconds - 1,
    }))
    .sort((a, b) => Math.abs(b.off) - Math.abs(a.off));
  console.log(`${heard.length} phrases, ${lengths.size} words and pauses; farthest off:`);
  for (const { text, off } of errors.slice(0, 10)) console.log(`  ${(off * 100).toFixed(1).padStart(6)} %  ${text}`);
} finally {
  await clips.close();
  await rm(dataDir, { recursive: true, force: true });
}
