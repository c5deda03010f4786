/** Runs in the worker thread: the voice of a language is loaded once, then speaks one text at a time. */
import type { Language } from '../../server/core/words/voiceChoice.ts';
import { SAMPLE_RATE_HZ, toInt16 } from '../pcm/format.ts';
import { makeClip } from '../pcm/makeClip.ts';
import { loadEmbedded, type Mouth } from './embedded.ts';
import { ENGINE, isSpeakable, VOICE_NAME, VOICE_NAMES, type VoiceFound, WORDS_PER_MIN } from './settings.ts';

const loading = new Map<Language, Promise<Mouth>>();

export interface SpeakAsk {
  readonly text: string;
  readonly language: Language;
}

/** The finished clip's samples at 22,050 Hz. */
export async function speak({ text, language }: SpeakAsk): Promise<Int16Array> {
  if (!isSpeakable(text, language)) throw new RangeError(`not a text to be spoken: ${JSON.stringify(text)}`);
  const say = await mouth(language);
  const clip = makeClip(say(text));
  if (clip.length === 0) throw new Error(`the voice kept silent at ${JSON.stringify(text)}`);
  return toInt16(clip);
}

export async function about(): Promise<VoiceFound> {
  await mouth('en');
  return { name: VOICE_NAME, language: 'en', engine: ENGINE, sampleRateHz: SAMPLE_RATE_HZ };
}

function mouth(language: Language): Promise<Mouth> {
  const known = loading.get(language) ?? loadEmbedded({ name: VOICE_NAMES[language], wordsPerMin: WORDS_PER_MIN });
  loading.set(language, known);
  return known;
}
