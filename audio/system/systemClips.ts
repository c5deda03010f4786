import { createHash } from 'node:crypto';
import type { Language } from '../../server/core/words/voiceChoice.ts';
import type { VoiceHere } from '../../server/wire/kept/voices.ts';
import { openClipFolder, type RenderedClip } from '../clipFolder.ts';
import { SAMPLE_RATE_HZ } from '../pcm/format.ts';
import { PROCESSING } from '../pcm/makeClip.ts';
import type { SystemVoice } from './systemVoice.ts';

/** What the machine's own voice is called, whichever it is. */
export const SYSTEM = 'system';

/** The clips of the machine's own voice, if it has one. */
export function openSystemClips(folder: string, voice: SystemVoice | undefined) {
  const clips = openClipFolder(folder);
  const keyOf = (text: string, language: Language): string =>
    createHash('sha256')
      .update(`system\0${voice?.engine}\0${language}\0${PROCESSING}\0${text}`)
      .digest('hex')
      .slice(0, 32);
  const speak = async (text: string, language: Language): Promise<Int16Array> => {
    if (voice === undefined) throw new Error('this machine has no voice of its own any more');
    return voice.speak(text, language);
  };
  return {
    list: (): readonly VoiceHere[] =>
      voice === undefined
        ? []
        : [
            {
              name: SYSTEM,
              kind: 'system',
              language: voice.languages.join(', '),
              engine: `${voice.engine} of this machine`,
              sampleRateHz: SAMPLE_RATE_HZ,
            },
          ],
    speaks: (language: Language): boolean => voice?.languages.includes(language) === true,
    async render(texts: readonly string[], language: Language): Promise<readonly RenderedClip[]> {
      const rendered: RenderedClip[] = [];
      for (const text of texts)
        rendered.push(await clips.clip(keyOf(text, language), text, () => speak(text, language)));
      return rendered;
    },
    /** Where its clip is gone or damaged it is spoken anew; undefined where nobody can any more. */
    async mend(key: string, text: string, language: Language = 'en'): Promise<string | undefined> {
      if (voice !== undefined) await clips.clip(key, text, () => speak(text, language));
      return clips.pathOf(key);
    },
  };
}
