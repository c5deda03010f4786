/** The phrases of runs as WAV files by the embedded voice, in `<dataDir>/clips`. */
import { resolve } from 'node:path';
import { clipKey } from './clipFile.ts';
import { type ClipFolder, openClipFolder } from './clipFolder.ts';
import { openVoice, type Voice } from './voice/voice.ts';

export type { RenderedClip } from './clipFolder.ts';

/** `render` and `mend` reject with a `VoiceFailed` (see `Voice.speak`) or the disk's error. */
export interface ClipStore extends ClipFolder {
  close(): Promise<void>;
}

export interface ClipOptions {
  readonly dataDir: string;
  /** Who speaks; the store closes it. */
  readonly voice?: Voice;
}

export function openClips({ dataDir, voice = openVoice() }: ClipOptions): ClipStore {
  const folder = openClipFolder(resolve(dataDir, 'clips'), { keyOf: clipKey, speak: (text) => voice.speak(text) });
  return { ...folder, close: () => voice.close() };
}
