/** One clip in the cache: its key, its bytes, and how it is told from a damaged one. */
import { createHash } from 'node:crypto';
import type { Language } from '../server/core/words/voiceChoice.ts';
import { SAMPLE_RATE_HZ } from './pcm/format.ts';
import { PROCESSING } from './pcm/makeClip.ts';
import { ENGINE, VOICE_NAMES, WORDS_PER_MIN } from './voice/settings.ts';
import { durationMs, readWav, writeWav } from './wav.ts';

const madeBy = (language: Language): string =>
  JSON.stringify([ENGINE, VOICE_NAMES[language], WORDS_PER_MIN, PROCESSING]);
const KEY = /^[0-9a-f]{32}$/;

/** The same words by the same voice and processing have the same key. */
export const clipKey = (text: string, language: Language): string => sha256(madeBy(language), text).slice(0, 32);

export const isClipKey = (key: string): boolean => KEY.test(key);

/** A WAV whose comment vouches for its words and samples. */
export function packClip(
  text: string,
  samples: Int16Array,
): { readonly bytes: Uint8Array; readonly durationMs: number } {
  const wav = { sampleRateHz: SAMPLE_RATE_HZ, samples, comment: seal(text, samples) };
  return { bytes: writeWav(wav), durationMs: Math.round(durationMs(wav)) };
}

/** The clip's duration, or undefined where the file is empty, cut short, altered, or of other words. */
export function checkClip(text: string, bytes: Uint8Array): number | undefined {
  const read = readWav(bytes);
  if (!read.ok || read.wav.sampleRateHz !== SAMPLE_RATE_HZ || read.wav.samples.length === 0) return undefined;
  return read.wav.comment === seal(text, read.wav.samples) ? Math.round(durationMs(read.wav)) : undefined;
}

const seal = (text: string, samples: Int16Array): string =>
  sha256(text, new Uint8Array(samples.buffer, samples.byteOffset, samples.byteLength));

function sha256(...parts: readonly (string | Uint8Array)[]): string {
  const hash = createHash('sha256');
  for (const part of parts) hash.update(part).update('\0');
  return hash.digest('hex');
}
