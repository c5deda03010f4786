/** Runs in the worker thread: the voice is loaded once, then speaks one text at a time. */
import { SAMPLE_RATE_HZ, toInt16 } from '../pcm/format.ts';
import { makeClip } from '../pcm/makeClip.ts';
import { loadEmbedded, type Mouth } from './embedded.ts';
import { ENGINE, isSpeakable, VOICE_NAME, type VoiceFound, WORDS_PER_MIN } from './settings.ts';

let loading: Promise<Mouth> | undefined;

/** The finished clip's samples at 22,050 Hz. */
export async function speak(text: string): Promise<Int16Array> {
  if (!isSpeakable(text)) throw new RangeError(`not a text to be spoken: ${JSON.stringify(text)}`);
  const say = await mouth();
  const clip = makeClip(say(text));
  if (clip.length === 0) throw new Error(`the voice kept silent at ${JSON.stringify(text)}`);
  return toInt16(clip);
}

export async function about(): Promise<VoiceFound> {
  await mouth();
  return { name: VOICE_NAME, language: 'en', engine: ENGINE, sampleRateHz: SAMPLE_RATE_HZ };
}

function mouth(): Promise<Mouth> {
  loading ??= loadEmbedded({ name: VOICE_NAME, wordsPerMin: WORDS_PER_MIN });
  return loading;
}
