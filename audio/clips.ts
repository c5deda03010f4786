/** The phrases of runs as WAV files: spoken once, kept on disk, found again by their words. */
import { randomUUID } from 'node:crypto';
import { existsSync } from 'node:fs';
import { mkdir, open, readdir, readFile, rename, rm } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { checkClip, clipKey, isClipKey, packClip } from './clipFile.ts';
import { openVoice, type Voice } from './voice/voice.ts';

export interface RenderedClip {
  readonly text: string;
  /** Names the file: `<dataDir>/clips/<key>.wav`. */
  readonly key: string;
  readonly durationMs: number;
}

export interface ClipStore {
  /**
   * The clips of these texts, in their order; what is not in the cache, or is damaged there, is spoken anew.
   * `onProgress` hears after each clip how many are ready. Rejects with a `VoiceFailed` (see `Voice.speak`) or the disk's error.
   */
  render(texts: readonly string[], onProgress?: (ready: number, of: number) => void): Promise<readonly RenderedClip[]>;
  /** Absolute path of a clip that is there; undefined for everything else, whatever the key looks like. */
  pathOf(key: string): string | undefined;
  close(): Promise<void>;
}

export interface ClipOptions {
  readonly dataDir: string;
  /** Who speaks; the store closes it. */
  readonly voice?: Voice;
}

export function openClips({ dataDir, voice = openVoice() }: ClipOptions): ClipStore {
  const folder = resolve(dataDir, 'clips');
  const fileOf = (key: string): string => join(folder, `${key}.wav`);
  const ready = mkdir(folder, { recursive: true }).then(() => clearUnfinished(folder));
  // Told at the first render; an unused store may have no folder.
  ready.catch(() => {});
  const underway = new Map<string, Promise<RenderedClip>>();

  async function make(text: string, key: string): Promise<RenderedClip> {
    await ready;
    const known = checkClip(text, await readOrEmpty(fileOf(key)));
    if (known !== undefined) return { text, key, durationMs: known };
    const clip = packClip(text, await voice.speak(text));
    await replaceFile(folder, fileOf(key), clip.bytes);
    return { text, key, durationMs: clip.durationMs };
  }

  /** Two runs that want the same words at once share one making. */
  function clipOf(text: string): Promise<RenderedClip> {
    const key = clipKey(text);
    const making = underway.get(key) ?? make(text, key).finally(() => underway.delete(key));
    underway.set(key, making);
    return making;
  }

  return {
    async render(texts, onProgress) {
      const clips: RenderedClip[] = [];
      for (const text of texts) {
        clips.push(await clipOf(text));
        onProgress?.(clips.length, texts.length);
      }
      return clips;
    },
    pathOf: (key) => (isClipKey(key) && existsSync(fileOf(key)) ? fileOf(key) : undefined),
    close: () => voice.close(),
  };
}

const UNFINISHED = /\.unfinished$/;

/** The file is whole or not there at all, even if the power fails: written beside, flushed, then renamed. */
async function replaceFile(folder: string, file: string, bytes: Uint8Array): Promise<void> {
  const beside = join(folder, `${randomUUID()}.unfinished`);
  try {
    const handle = await open(beside, 'wx');
    try {
      await handle.writeFile(bytes);
      await handle.sync();
    } finally {
      await handle.close();
    }
    await rename(beside, file);
  } catch (cause) {
    await rm(beside, { force: true });
    throw cause;
  }
}

async function clearUnfinished(folder: string): Promise<void> {
  const names = (await readdir(folder)).filter((name) => UNFINISHED.test(name));
  await Promise.all(names.map((name) => rm(join(folder, name), { force: true })));
}

async function readOrEmpty(file: string): Promise<Uint8Array> {
  try {
    return await readFile(file);
  } catch (cause) {
    if (cause instanceof Error && 'code' in cause && cause.code === 'ENOENT') return new Uint8Array(0);
    throw cause;
  }
}
