/** A folder of clips: each is spoken once, kept on disk, found again by its key, and spoken anew where it is gone or damaged. */
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

export interface ClipFolder {
  /**
   * The clip of these words under this key; what is not in the folder, or is damaged there, is had from `speak`: finished samples
   * at 22,050 Hz. Rejects with what `speak` or the disk says.
   */
  clip(key: string, text: string, speak: () => Promise<Int16Array>): Promise<RenderedClip>;
  /** Absolute path of a clip that is there; undefined for everything else, whatever the key looks like. */
  pathOf(key: string): string | undefined;
}

/** `folder` is an absolute path; it is made when the first clip is. */
export function openClipFolder(folder: string): ClipFolder {
  const fileOf = (key: string): string => join(folder, `${key}.wav`);
  const underway = new Map<string, Promise<RenderedClip>>();
  let opened: Promise<void> | undefined;

  async function make(key: string, text: string, speak: () => Promise<Int16Array>): Promise<RenderedClip> {
    opened ??= mkdir(folder, { recursive: true }).then(() => clearUnfinished(folder));
    await opened.catch((error: unknown) => {
      // A disk that was full may have room by the next time.
      opened = undefined;
      throw error;
    });
    const known = checkClip(text, await readOrEmpty(fileOf(key)));
    if (known !== undefined) return { text, key, durationMs: known };
    const { bytes, durationMs } = packClip(text, await speak());
    // The folder itself may have been cleared away since.
    await mkdir(folder, { recursive: true });
    await replaceFile(fileOf(key), bytes);
    return { text, key, durationMs };
  }

  return {
    /** Two runs that want the same words at once share one making. */
    clip(key, text, speak) {
      if (!isClipKey(key)) throw new RangeError(`not the key of a clip: ${JSON.stringify(key)}`);
      const making = underway.get(key) ?? make(key, text, speak).finally(() => underway.delete(key));
      underway.set(key, making);
      return making;
    },
    pathOf: (key) => (isClipKey(key) && existsSync(fileOf(key)) ? fileOf(key) : undefined),
  };
}
