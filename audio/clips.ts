/** The phrases of runs as WAV files by the embedded voice, in `<dataDir>/clips`. */
import { resolve } from 'node:path';
import type { Language } from '../server/core/words/voiceChoice.ts';
import { clipKey } from './clipFile.ts';
import { openClipFolder, type RenderedClip } from './clipFolder.ts';
import { openVoice, type Voice } from './voice/voice.ts';

export type { RenderedClip } from './clipFolder.ts';

export interface ClipStore {
  /**
   * The clips of these texts, in their order; what is not in the cache, or is damaged there, is spoken anew.
   * `onProgress` hears after each clip how many are ready. Rejects with a `VoiceFailed` (see `Voice.speak`) or the disk's error.
   */
  render(texts: readonly string[], how?: RenderHow): Promise<readonly RenderedClip[]>;
  /** Absolute path of a clip that is there; undefined for everything else, whatever the key looks like. */
  pathOf(key: string): string | undefined;
  /** The same, of a clip of these words, which may be one of an earlier voice: spoken anew where it is gone or damaged. */
  mend(key: string, text: string, language?: Language): Promise<string | undefined>;
  close(): Promise<void>;
}

export interface RenderHow {
  /** English if it is left out. */
  readonly language?: Language;
  readonly onProgress?: (ready: number, of: number) => void;
}

export interface ClipOptions {
  readonly dataDir: string;
  /** Who speaks; the store closes it. */
  readonly voice?: Voice;
}

export function openClips({ dataDir, voice = openVoice() }: ClipOptions): ClipStore {
  const folder = openClipFolder(resolve(dataDir, 'clips'));
  const clip = (key: string, text: string, language: Language): Promise<RenderedClip> =>
    folder.clip(key, text, () => voice.speak(text, language));
  return {
    async render(texts, { language = 'en', onProgress } = {}) {
      const clips: RenderedClip[] = [];
      for (const text of texts) {
        clips.push(await clip(clipKey(text, language), text, language));
        onProgress?.(clips.length, texts.length);
      }
      return clips;
    },
    pathOf: folder.pathOf,
    async mend(key, text, language = 'en') {
      await clip(key, text, language);
      return folder.pathOf(key);
    },
    close: () => voice.close(),
  };
}
