/** A folder of clips by one speaker: spoken once, kept on disk, found again by their words, spoken anew where they are damaged. */
import { existsSync } from 'node:fs';
import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { checkClip, isClipKey, packClip } from './clipFile.ts';
import { clearUnfinished, readOrEmpty, replaceFile } from './replaceFile.ts';

export interface RenderedClip {
  readonly text: string;
  /** Names the file: `<folder>/<key>.wav`. */
  readonly key: string;
  readonly durationMs: number;
}

export interface Speaker {
  /** The same for the same words by the same voice and processing, as `isClipKey` wants it. */
  keyOf(text: string): string;
  /** The finished clip's samples at 22,050 Hz. Rejects where it cannot be spoken. */
  speak(text: string): Promise<Int16Array>;
}

export interface ClipFolder {
  /**
   * The clips of these texts, in their order; what is not in the folder, or is damaged there, is spoken anew.
   * `onProgress` hears after each clip how many are ready. Rejects with what the speaker or the disk says.
   */
  render(texts: readonly string[], onProgress?: (ready: number, of: number) => void): Promise<readonly RenderedClip[]>;
  /** Absolute path of a clip that is there; undefined for everything else, whatever the key looks like. */
  pathOf(key: string): string | undefined;
  /** The path of a clip of these words under this key, which may be one of before; spoken anew where it is gone or damaged. */
  mend(key: string, text: string): Promise<string>;
}

export function openClipFolder(folder: string, { keyOf, speak }: Speaker): ClipFolder {
  const fileOf = (key: string): string => join(folder, `${key}.wav`);
  const ready = mkdir(folder, { recursive: true }).then(() => clearUnfinished(folder));
  // Told at the first render; an unused store may have no folder.
  ready.catch(() => {});
  const underway = new Map<string, Promise<RenderedClip>>();

  async function make(text: string, key: string): Promise<RenderedClip> {
    await ready;
    const known = checkClip(text, await readOrEmpty(fileOf(key)));
    if (known !== undefined) return { text, key, durationMs: known };
    const clip = packClip(text, await speak(text));
    // The folder itself may have been cleared away meanwhile.
    await mkdir(folder, { recursive: true });
    await replaceFile(fileOf(key), clip.bytes);
    return { text, key, durationMs: clip.durationMs };
  }

  /** Two runs that want the same words at once share one making. */
  function clipOf(text: string, key: string): Promise<RenderedClip> {
    const making = underway.get(key) ?? make(text, key).finally(() => underway.delete(key));
    underway.set(key, making);
    return making;
  }

  return {
    async render(texts, onProgress) {
      const clips: RenderedClip[] = [];
      for (const text of texts) {
        clips.push(await clipOf(text, keyOf(text)));
        onProgress?.(clips.length, texts.length);
      }
      return clips;
    },
    pathOf: (key) => (isClipKey(key) && existsSync(fileOf(key)) ? fileOf(key) : undefined),
    async mend(key, text) {
      if (!isClipKey(key)) throw new RangeError(`not the key of a clip: ${JSON.stringify(key)}`);
      await clipOf(text, key);
      return fileOf(key);
    },
  };
}
