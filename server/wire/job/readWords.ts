import { PHRASE_NAMES } from '../../core/words/phraseNames.ts';
import type { Language, YardWords } from '../../core/words/voiceChoice.ts';
import { faultsOfWords, LONGEST_PHRASE } from '../../core/words/yardWords.ts';
import { quote } from '../problem/showFound.ts';
import type { JobReading, JobSection } from './jobSection.ts';

/**
 * The yard's own words, by phrase. A letter with its dots apart is the letter; everything else that is not taken is told with
 * its place and what to do instead.
 */
export function readWords(section: JobSection, language: Language, { problems }: JobReading): YardWords {
  const words = Object.fromEntries(
    PHRASE_NAMES.filter((name) => section.isGiven(name)).map((name) => [
      name,
      section.text(name, 'the words of this phrase', undefined, LONGEST_PHRASE).normalize('NFC'),
    ]),
  );
  // What is no text at all was told already.
  const texts: YardWords = Object.fromEntries(Object.entries(words).filter(([, text]) => text !== ''));
  for (const { phrase, kind, wanted } of faultsOfWords(texts, language)) {
    const code = kind === 'mistakable' ? 'mistakable' : 'out-of-range';
    problems.add(code, { field: `voice.words.${phrase}` }, quote(texts[phrase] ?? ''), wanted);
  }
  return texts;
}
