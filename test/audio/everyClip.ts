/** Every clip that the tests of sound go over, in every language: spoken once, then kept until what makes them changes. */
import { readFile } from 'node:fs/promises';
import { openClips } from '../../audio/clips.ts';
import { fromInt16 } from '../../audio/pcm/format.ts';
import { readWav } from '../../audio/wav.ts';
import { callText } from '../../server/core/words/callText.ts';
import { grammarOf, LANGUAGES } from '../../server/core/words/languages.ts';
import { numberWords } from '../../server/core/words/numberWords.ts';
import type { Language } from '../../server/core/words/voiceChoice.ts';
import { clipCache } from '../kit/spokenClips.ts';

export interface SpokenClip {
  readonly text: string;
  readonly language: Language;
  readonly isFigure: boolean;
  readonly samples: Float64Array;
}

const FORMS = ['natural', 'digits', 'two digits'] as const;
const quarters = Array.from({ length: 181 }, (_, i) => i / 4);

const figuresOf = (language: Language): readonly string[] =>
  FORMS.flatMap((form) => quarters.map((deg) => numberWords(deg, form, language)));

function othersOf(language: Language): readonly string[] {
  const { phrases, turns } = grammarOf(language);
  const marked = [1, 12, 128].map((mark) =>
    callText({ mark, deg: 12.5 }, { language, form: 'mark and angle', numbers: 'digits' }),
  );
  return [...Object.values(phrases), turns.more, turns.less, numberWords(-7.5, 'digits', language), ...marked];
}

export async function everyClip(): Promise<readonly SpokenClip[]> {
  const store = openClips({ dataDir: clipCache() });
  const all: SpokenClip[] = [];
  try {
    for (const language of LANGUAGES) {
      const figures = new Set(figuresOf(language));
      for (const { text, key } of await store.render([...new Set([...figures, ...othersOf(language)])], { language })) {
        const file = store.pathOf(key) ?? '';
        const read = readWav(await readFile(file));
        if (!read.ok) throw new Error(`${text}: ${read.why}`);
        all.push({ text, language, isFigure: figures.has(text), samples: fromInt16(read.wav.samples) });
      }
    }
  } finally {
    await store.close();
  }
  return all;
}
