/** Runs in the worker thread: the voice is loaded once, then speaks one text at a time. */
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import load, { type Speaker } from '@echogarden/espeak-ng-emscripten';
import { fromInt16, SAMPLE_RATE_HZ, toInt16 } from '../pcm/format.ts';
import { makeClip } from '../pcm/makeClip.ts';
import { ENGINE, isSpeakable, VOICE_NAME, type VoiceFound, WORDS_PER_MIN } from './settings.ts';

const DATA = createRequire(import.meta.url).resolve('@echogarden/espeak-ng-emscripten/espeak-ng.data');

let loading: Promise<Speaker> | undefined;

/** The finished clip's samples at 22,050 Hz. */
export async function speak(text: string): Promise<Int16Array> {
  if (!isSpeakable(text)) throw new RangeError(`not a text to be spoken: ${JSON.stringify(text)}`);
  const speaker = await voice();
  const chunks: Int16Array[] = [];
  speaker.synthesize(text, (chunk) => {
    if (chunk.length > 0) chunks.push(chunk);
    return false;
  });
  const clip = makeClip(fromInt16(joined(chunks)));
  if (clip.length === 0) throw new Error(`the voice kept silent at ${JSON.stringify(text)}`);
  return toInt16(clip);
}

export async function about(): Promise<VoiceFound> {
  const speaker = await voice();
  return { name: VOICE_NAME, language: 'en', engine: ENGINE, sampleRateHz: speaker.get_samplerate() };
}

function voice(): Promise<Speaker> {
  loading ??= loadVoice();
  return loading;
}

async function loadVoice(): Promise<Speaker> {
  // Handed over, because its own reading hangs where the path has a `#` or the file is gone.
  const { buffer } = await readFile(DATA);
  const { eSpeakNGWorker } = await load({ getPreloadedPackage: () => buffer });
  const speaker = new eSpeakNGWorker();
  if (speaker.set_voice(VOICE_NAME) !== 0) throw new Error(`the embedded voice ${VOICE_NAME} is not in its package`);
  speaker.set_rate(WORDS_PER_MIN);
  const rate = speaker.get_samplerate();
  if (rate !== SAMPLE_RATE_HZ)
    throw new Error(`the voice speaks at ${rate} samples a second, wanted ${SAMPLE_RATE_HZ}`);
  return speaker;
}

function joined(chunks: readonly Int16Array[]): Int16Array {
  const whole = new Int16Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0));
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.length;
  }
  return whole;
}
