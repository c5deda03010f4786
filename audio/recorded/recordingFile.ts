/** One recording of a voice: its file in the voice's folder, and the key of the clip that is made of it. */
import { createHash } from 'node:crypto';
import { stat } from 'node:fs/promises';
import { RECORDING_LIMIT_BYTES } from '../../server/wire/kept/voices.ts';
import { PROCESSING } from '../pcm/makeClip.ts';
import { readOrEmpty } from '../replaceFile.ts';

/** The clip stands for the words, the recording and the processing: another take has another key, and no cache mistakes it. */
export const clipKeyOf = (text: string, wav: Uint8Array): string =>
  createHash('sha256').update(`recorded\0${PROCESSING}\0${text}\0`).update(wav).digest('hex').slice(0, 32);

/** To be recognised in the folder; the letters at its end keep texts apart that look alike without their marks. */
export function fileNameOf(text: string): string {
  const plain = text
    .toLowerCase()
    .replace(/[^\p{L}\p{M}\p{N}]+/gu, '-')
    .slice(0, 48)
    .replace(/-$/, '');
  return `${plain}-${createHash('sha256').update(text).digest('hex').slice(0, 6)}.wav`;
}

/** Empty, and so no recording, where it is not there, is no file, or is far too large to be one phrase. */
export async function readRecordingFile(file: string): Promise<Uint8Array> {
  const found = await stat(file).catch(() => undefined);
  return found?.isFile() === true && found.size <= RECORDING_LIMIT_BYTES ? readOrEmpty(file) : new Uint8Array(0);
}
